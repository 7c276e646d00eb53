import { formatVolume } from '../../../lib/measures.ts'
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
import { t } from '../../../lib/reader.ts'

export function RecallScreen() {
  const { lotId } = useParams({ from: '/in/stock/lots/$lotId/recall' })
  const recall = useQuery(stockQueries.recall(lotId))
  return (
    <Answered query={recall} what={t('stock.theRecall')}>
      {(data) => <RecallPage recall={data} />}
    </Answered>
  )
}

const CARTRIDGES: readonly Column<LotRecall['cartridges'][number]>[] = [
  {
    head: 'stock.cartridge2',
    cell: (row) => (
      <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: row.cartridgeId }}>
        {row.code}
      </Link>
    ),
  },
  { head: 'stock.shop', cell: (row) => row.shopName },
  {
    head: 'stock.state',
    cell: (row) =>
      [
        CARTRIDGE_STATE[row.state],
        ...(isLeft(row) && row.isExpired ? [t('stock.isExpired')] : []),
        ...(isLeft(row) && row.isQuarantined ? [t('stock.isQuarantined')] : []),
      ].join(', '),
  },
  { head: 'stock.place', cell: (row) => row.locationName ?? '' },
  { head: 'stock.content', number: true, cell: (row) => formatVolume(row.remainingMl) },
]

function isLeft({ state }: LotRecall['cartridges'][number]): boolean {
  return state !== 'empty' && state !== 'discarded'
}

const MAY_BE_USED = {
  onHold: {
    tone: 'danger',
    get word() {
      return t('stock.noOnHoldInEveryShop')
    },
  },
  usable: {
    tone: 'warning',
    get word() {
      return t('stock.yesStillPutItOnHold')
    },
  },
  away: {
    tone: 'warning',
    get word() {
      return t('stock.yesOnceItTurnsUpPutItOnHold')
    },
  },
  quarantined: {
    tone: 'warning',
    get word() {
      return t('stock.noWhileQuarantinedPutItOnHold')
    },
  },
  expired: {
    tone: 'danger',
    get word() {
      return t('stock.noAllThatIsLeftHasExpired')
    },
  },
  noneLeft: {
    tone: 'quiet',
    get word() {
      return t('stock.noNoneIsLeft')
    },
  },
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
      title={t('stock.recallOfLot', { lotNumber: lot.lotNumber })}
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
            {t('stock.asCsv')}
          </Button>
          <Button
            variant="default"
            leftSection={<Printer size={16} aria-hidden />}
            onClick={() => window.print()}
          >
            {t('stock.print')}
          </Button>
        </>
      }
    >
      <Answer tone={tone} question={t('stock.mayItBeUsed')} word={word}>
        <p>{t('stock.recallConcerns', { onHand, joints: joints.length, vehicles, people: people.length })}</p>
        {expired > 0 && <p>{t('stock.ofWhatIsLeftExpiredNoGateLetsThem', { expired })}</p>}
        {quarantined > 0 && <p>{t('stock.ofWhatIsLeftQuarantinedNoneIsUsed', { quarantined })}</p>}
        {lot.hold !== null && <p>{lot.hold.reason}</p>}
        {hiddenShops > 0 && (
          <p>
            <Mark tone="warning">{t('stock.moreThatYouMayNotSeeAskAnOwnerForThe', { hiddenShops })}</Mark>
          </p>
        )}
      </Answer>
      <Section title={t('stock.jointsAndVehicles')}>
        <Joints joints={joints} />
      </Section>
      <Section title={t('stock.cartridges')}>
        {cartridges.length === 0 ? (
          <Empty title={t('stock.noneInTheShopsThatYouMaySee')} />
        ) : (
          <Table
            caption={t('stock.cartridgesOfTheLot')}
            columns={CARTRIDGES}
            rows={cartridges}
            rowKey={({ cartridgeId }) => cartridgeId}
          />
        )}
      </Section>
      <Section title={t('stock.peopleToTell')}>
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
  if (joints.length === 0) return <Empty title={t('stock.itWentIntoNoJoint')} />
  const columns: readonly Column<LotRecall['joints'][number]>[] = [
    {
      head: 'stock.repairOrder',
      cell: (row) => (
        <Link to="/jobs/$repairOrderId" params={{ repairOrderId: row.repairOrderId }}>
          {row.repairOrderNumber}
        </Link>
      ),
    },
    { head: 'stock.vehicle2', cell: (row) => row.vehicle },
    { head: 'stock.joint2', cell: (row) => `${row.jointName} (${row.safetyClass})` },
    { head: 'stock.bond', cell: (row) => BOND_STATE[row.bondState] },
    { head: 'stock.shop', cell: (row) => row.shopName },
    {
      head: 'stock.applied',
      cell: (row) =>
        t('lib.by', {
          what: formatInstant(
            row.appliedAt,
            shops.find(({ id }) => id === row.shopId)?.timeZone ?? 'utc',
            'full',
          ),
          who: row.appliedBy,
        }),
    },
    { head: 'stock.from', cell: (row) => row.codes.join(', ') },
    { head: 'stock.used', number: true, cell: (row) => formatVolume(row.amountMl) },
  ]
  return (
    <Table
      caption={t('stock.jointsThatTheLotWentInto')}
      columns={columns}
      rows={joints}
      rowKey={({ bondId }) => bondId}
    />
  )
}
