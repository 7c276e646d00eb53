import { ROUTES } from '../../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { Download, Printer } from 'lucide-react'
import { stockQueries } from '../../../api/queries/stock.ts'
import { urlOf } from '../../../api/url.ts'
import type { LotRecall } from '../../../api/types.ts'
import { useShops } from '../../../api/use-me.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { BOND_STATE, CARTRIDGE_STATE } from '../../../lib/words.ts'
import { Answer } from '../../../ui/answers/answer.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Page, Section } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { LotHoldButton } from './lot-hold-button.tsx'

export function RecallScreen() {
  const { lotId } = useParams({ from: '/in/stock/lots/$lotId/recall' })
  const recall = useQuery(stockQueries.recall(lotId))
  return (
    <Answered query={recall} what="the recall">
      {(data) => <RecallPage recall={data} />}
    </Answered>
  )
}

const CARTRIDGES: readonly Column<LotRecall['cartridges'][number]>[] = [
  {
    head: 'Cartridge',
    cell: (row) => (
      <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: row.cartridgeId }}>
        {row.code}
      </Link>
    ),
  },
  { head: 'Shop', cell: (row) => row.shopName },
  {
    head: 'State',
    cell: (row) =>
      [
        CARTRIDGE_STATE[row.state],
        ...(isLeft(row) && row.isExpired ? ['expired'] : []),
        ...(isLeft(row) && row.isQuarantined ? ['quarantined'] : []),
      ].join(', '),
  },
  { head: 'Place', cell: (row) => row.locationName ?? '' },
  { head: 'Content', number: true, cell: (row) => `${Math.round(row.remainingMl)} mL` },
]

function isLeft({ state }: LotRecall['cartridges'][number]): boolean {
  return state !== 'empty' && state !== 'discarded'
}

const MAY_BE_USED = {
  onHold: { tone: 'danger', word: 'No: on hold in every shop' },
  usable: { tone: 'warning', word: 'Yes, still: put it on hold' },
  away: { tone: 'warning', word: 'Yes, once it turns up: put it on hold' },
  quarantined: { tone: 'warning', word: 'No, while quarantined: put it on hold' },
  expired: { tone: 'danger', word: 'No: all that is left has expired' },
  noneLeft: { tone: 'quiet', word: 'No: none is left' },
} as const

/** Everything a recall concerns on one page: to look at, to print, and as a table for a spreadsheet. */
function RecallPage({ recall }: { readonly recall: LotRecall }) {
  const { lot, cartridges, joints, people, hiddenShops } = recall
  const onHand = cartridges.filter(({ state }) => state === 'sealed' || state === 'opened').length
  const left = cartridges.filter(isLeft)
  const expired = left.filter((row) => row.isExpired).length
  const quarantined = left.filter((row) => row.isQuarantined && !row.isExpired).length
  const { tone, word } = MAY_BE_USED[recall.mayBeUsed]
  const vehicles = new Set(joints.map(({ repairOrderId }) => repairOrderId)).size
  return (
    <Page
      title={`Recall of lot ${lot.lotNumber}`}
      lede={lot.productName}
      actions={
        <>
          <LotHoldButton lot={lot} />
          <Button
            component="a"
            variant="default"
            leftSection={<Download size={16} aria-hidden />}
            href={urlOf(ROUTES.getLotRecallCsv.path, { lotId: lot.id }, undefined)}
          >
            As CSV
          </Button>
          <Button
            variant="default"
            leftSection={<Printer size={16} aria-hidden />}
            onClick={() => window.print()}
          >
            Print
          </Button>
        </>
      }
    >
      <Answer tone={tone} question="May it be used?" word={word}>
        <p>
          {onHand} on hand, {joints.length} {joints.length === 1 ? 'joint' : 'joints'} on {vehicles}{' '}
          {vehicles === 1 ? 'vehicle' : 'vehicles'}, {people.length}{' '}
          {people.length === 1 ? 'person' : 'people'} to tell.
        </p>
        {expired > 0 && <p>{expired} of what is left expired: no gate lets them through.</p>}
        {quarantined > 0 && (
          <p>{quarantined} of what is left quarantined: none is used until somebody entitled decides.</p>
        )}
        {lot.hold !== null && <p>{lot.hold.reason}</p>}
        {hiddenShops > 0 && (
          <p>
            <Mark tone="warning">{`${hiddenShops} more that you may not see: ask an owner for the whole list`}</Mark>
          </p>
        )}
      </Answer>
      <Section title="Joints and vehicles">
        <Joints joints={joints} />
      </Section>
      <Section title="Cartridges">
        {cartridges.length === 0 ? (
          <Empty title="None in the shops that you may see." />
        ) : (
          <Table
            caption="Cartridges of the lot"
            columns={CARTRIDGES}
            rows={cartridges}
            rowKey={({ cartridgeId }) => cartridgeId}
          />
        )}
      </Section>
      <Section title="People to tell">
        <ul>
          {people.map(({ name, email, why }) => (
            <li key={email}>
              {name}, <a href={`mailto:${email}`}>{email}</a>: {why.join('; ')}
            </li>
          ))}
        </ul>
      </Section>
    </Page>
  )
}

function Joints({ joints }: { readonly joints: LotRecall['joints'] }) {
  const shops = useShops()
  if (joints.length === 0) return <Empty title="It went into no joint." />
  const columns: readonly Column<LotRecall['joints'][number]>[] = [
    {
      head: 'Repair order',
      cell: (row) => (
        <Link to="/jobs/$repairOrderId" params={{ repairOrderId: row.repairOrderId }}>
          {row.repairOrderNumber}
        </Link>
      ),
    },
    { head: 'Vehicle', cell: (row) => row.vehicle },
    { head: 'Joint', cell: (row) => `${row.jointName} (${row.safetyClass})` },
    { head: 'Bond', cell: (row) => BOND_STATE[row.bondState] },
    { head: 'Shop', cell: (row) => row.shopName },
    {
      head: 'Applied',
      cell: (row) =>
        `${formatInstant(row.appliedAt, shops.find(({ id }) => id === row.shopId)?.timeZone ?? 'utc', 'full')} by ${row.appliedBy}`,
    },
    { head: 'From', cell: (row) => row.codes.join(', ') },
    { head: 'Used', number: true, cell: (row) => `${Math.round(row.amountMl)} mL` },
  ]
  return (
    <Table
      caption="Joints that the lot went into"
      columns={columns}
      rows={joints}
      rowKey={({ bondId }) => bondId}
    />
  )
}
