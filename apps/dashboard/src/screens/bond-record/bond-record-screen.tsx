import { rich } from '../../lib/rich.tsx'
import { formatTemperature } from '../../lib/measures.ts'
import { ROUTES } from '../../api/contracts.ts'
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
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { lazily } from '../../ui/lazily.tsx'
import { Mark } from '../../ui/answers/mark.tsx'
import { Page, Section, Sheet } from '../../ui/page.tsx'
import { Table } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { ApplicationFacts } from './application-facts.tsx'
import { entryDetail } from './entry-detail.ts'
import { reader, t, withWords } from '../../lib/reader.ts'

const AfterRelease = lazily(
  async () =>
    (await withWords(import('../../features/bonds/after/after-parts.tsx'), 'start-bond')).AfterRelease,
)

const Attachments = lazily(
  async () =>
    (await withWords(import('../../features/attachments/attachments.tsx'), 'attachments')).Attachments,
  // As high as it is with nothing in it, so that what stands below does not jump.
  () => <div style={{ minHeight: '18rem' }} />,
)

const ENTRY = {
  ...EVENT,
  get readingWithdrawn() {
    return t('bond-record.readingTakenBack')
  },
  get slid() {
    return t('bond-record.slid')
  },
  get placed() {
    return t('bond-record.placed')
  },
  get vehicleCorrected() {
    return t('bond-record.vehicleCorrected')
  },
  get photoAdded() {
    return t('bond-record.photo')
  },
  get noteAdded() {
    return t('bond-record.note')
  },
  get attachmentWithdrawn() {
    return t('bond-record.photoOrNoteWithdrawn')
  },
} as const

/** Everything that proves how a joint was made, as it was written down then. */
export function BondRecordScreen() {
  const { bondId } = useParams({ from: '/in/bonds/$bondId/record' })
  const record = useQuery(bondQueries.record(bondId))
  return (
    <Answered query={record} what={t('bond-record.theRecord')}>
      {(data) => <RecordPage record={data} />}
    </Answered>
  )
}

function RecordPage({ record }: { readonly record: BondRecord }) {
  const { bond, application, curve, chain, cautions } = record
  const shop = useShop(bond.shopId)
  const [zone, unit] = [zoneOf(shop), reader().temperature]
  const nowMs = useNow(60_000)
  return (
    <Page
      title={t('bond-record.recordOf', { jointName: bond.jointName })}
      lede={
        <>
          <Link to="/jobs/$repairOrderId" params={{ repairOrderId: bond.repairOrderId }}>
            {bond.repairOrderNumber}, {bond.vehicle}
          </Link>
          {` · ${t('bond-record.attempt', { attempt: bond.attempt })}`}
        </>
      }
      narrow
      actions={
        <Button
          component="a"
          href={urlOf(ROUTES.getBondRecordPdf.path, { bondId: bond.id }, undefined)}
          leftSection={<FileDown size={16} aria-hidden />}
        >
          {t('bond-record.recordAsPdf')}
        </Button>
      }
    >
      <Mark tone={chain.intact ? 'ready' : 'danger'} filled={!chain.intact}>
        {chain.intact
          ? t('bond-record.theChainOfItsEntriesIsIntactAndWhat')
          : t('bond-record.theRecordIsBroken', { fault: chain.fault ?? t('bond-record.noReasonGiven') })}
      </Mark>
      <Section title={t('bond-record.asItWasApplied')}>
        <Sheet padded>
          {application === null ? (
            <p>{t('bond-record.thisBondWasMadeBeforeRecordsWereKept')}</p>
          ) : (
            <ApplicationFacts application={application} unit={unit} zone={zone} />
          )}
        </Sheet>
      </Section>
      <Section title={t('bond-record.temperatureAndCure')}>
        <BondCurveView curve={curve} jointName={bond.jointName} unit={unit} zone={zone} nowMs={nowMs} />
      </Section>
      <Section title={t('bond-record.whatWasWrittenDown')}>
        <Table
          caption={t('bond-record.entriesOf', { jointName: bond.jointName })}
          rows={record.entries}
          rowKey={({ hash }) => hash}
          columns={[
            { head: 'bond-record.no', number: true, cell: ({ sequence }) => sequence },
            { head: 'bond-record.when', cell: ({ at }) => formatInstant(at, zone, 'full') },
            { head: 'bond-record.what', cell: ({ kind }) => ENTRY[kind] },
            { head: 'bond-record.by', cell: ({ by }) => by },
            {
              head: 'bond-record.detail',
              cell: (entry) => entryDetail(entry, (c) => formatTemperature(c, unit)),
            },
            {
              head: 'bond-record.writtenDown',
              cell: ({ recordedAt }) => formatInstant(recordedAt, zone, 'full'),
            },
            { head: 'bond-record.hash', cell: ({ hash }) => <code title={hash}>{hash.slice(0, 12)}</code> },
          ]}
        />
      </Section>
      <Section title={t('bond-record.photosAndNotes')}>
        <Attachments repairOrderId={bond.repairOrderId} shopId={bond.shopId} bond={bond} />
      </Section>
      {chain.head !== null && (
        <Section title={t('bond-record.latestEntryOfTheShop')}>
          <Sheet padded>
            <p>
              {rich('bond-record.headOf', {
                sequence: chain.head.sequence,
                hash: <code style={{ overflowWrap: 'anywhere' }}>{chain.head.hash}</code>,
              })}
            </p>
            <p>{t('bond-record.keptElsewhereItShowsLaterWhether')}</p>
          </Sheet>
        </Section>
      )}
      {/* Never of a joint that came out of its clamps early: nothing may be done on it as if it held. */}
      {bond.state === 'released' && bond.moveCheck.mayMove && <AfterRelease bonds={[bond]} />}
      <Section title={t('bond-record.cautions')}>
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </Section>
    </Page>
  )
}
