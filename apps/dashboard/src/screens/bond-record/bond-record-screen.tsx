import { ROUTES } from '../../api/contracts.ts'
import { formatTemperature } from '@clampclock/quantities'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { FileDown } from 'lucide-react'
import { bondQueries } from '../../api/queries/bonds.ts'
import type { BondRecord } from '../../api/types.ts'
import { urlOf } from '../../api/url.ts'
import { BondCurveView } from '../../features/bonds/curve/bond-curve.tsx'
import { EVENT } from '../../features/bonds/curve/curve-table-rows.ts'
import { formatInstant } from '../../lib/instants.ts'
import { unitOf, useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Page, Section, Sheet } from '../../ui/page.tsx'
import { Table } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { ApplicationFacts } from './application-facts.tsx'
import { entryDetail } from './entry-detail.ts'

const ENTRY = {
  ...EVENT,
  readingWithdrawn: 'Reading taken back',
  vehicleCorrected: 'Vehicle corrected',
} as const

/** Everything that proves how a joint was made, as it was written down then. */
export function BondRecordScreen() {
  const { bondId } = useParams({ from: '/in/bonds/$bondId/record' })
  const record = useQuery(bondQueries.record(bondId))
  return (
    <Answered query={record} what="the record">
      {(data) => <RecordPage record={data} />}
    </Answered>
  )
}

function RecordPage({ record }: { readonly record: BondRecord }) {
  const { bond, application, curve, chain, cautions } = record
  const shop = useShop(bond.shopId)
  const [zone, unit] = [zoneOf(shop), unitOf(shop)]
  const nowMs = useNow(60_000)
  return (
    <Page
      title={`Record of ${bond.jointName}`}
      lede={
        <>
          <Link to="/jobs/$repairOrderId" params={{ repairOrderId: bond.repairOrderId }}>
            {bond.repairOrderNumber}, {bond.vehicle}
          </Link>{' '}
          · attempt {bond.attempt}
        </>
      }
      narrow
      actions={
        <Button
          component="a"
          href={urlOf(ROUTES.getBondRecordPdf.path, { bondId: bond.id }, undefined)}
          leftSection={<FileDown size={16} aria-hidden />}
        >
          Record as PDF
        </Button>
      }
    >
      <Mark tone={chain.intact ? 'ready' : 'danger'} filled={!chain.intact}>
        {chain.intact
          ? 'The chain of its entries is intact, and what is kept of the bond agrees with it'
          : `The record is broken: ${chain.fault ?? 'no reason given'}`}
      </Mark>
      <Section title="As it was applied">
        <Sheet padded>
          {application === null ? (
            <p>This bond was made before records were kept in a chain: only what follows is known.</p>
          ) : (
            <ApplicationFacts application={application} unit={unit} zone={zone} />
          )}
        </Sheet>
      </Section>
      <Section title="Temperature and cure">
        <BondCurveView curve={curve} jointName={bond.jointName} unit={unit} zone={zone} nowMs={nowMs} />
      </Section>
      <Section title="What was written down">
        <Table
          caption={`Entries of ${bond.jointName}`}
          rows={record.entries}
          rowKey={({ hash }) => hash}
          columns={[
            { head: 'No.', number: true, cell: ({ sequence }) => sequence },
            { head: 'When', cell: ({ at }) => formatInstant(at, zone, 'full') },
            { head: 'What', cell: ({ kind }) => ENTRY[kind] },
            { head: 'By', cell: ({ by }) => by },
            { head: 'Detail', cell: (entry) => entryDetail(entry, (c) => formatTemperature(c, unit)) },
            { head: 'Written down', cell: ({ recordedAt }) => formatInstant(recordedAt, zone, 'full') },
            { head: 'Hash', cell: ({ hash }) => <code title={hash}>{hash.slice(0, 12)}</code> },
          ]}
        />
      </Section>
      {chain.head !== null && (
        <Section title="Latest entry of the shop">
          <Sheet padded>
            <p>
              No. {chain.head.sequence}: <code style={{ overflowWrap: 'anywhere' }}>{chain.head.hash}</code>
            </p>
            <p>Kept elsewhere, it shows later whether anything up to here was changed or cut off.</p>
          </Sheet>
        </Section>
      )}
      <Section title="Cautions">
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </Section>
    </Page>
  )
}
