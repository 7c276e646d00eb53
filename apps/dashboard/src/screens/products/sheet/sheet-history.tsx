import { rich } from '../../../lib/rich.tsx'
import type { ProductSheet } from '../../../api/types.ts'
import { formatDate } from '../../../lib/instants.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { When } from '../../../ui/when.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly sheets: readonly ProductSheet[]
  /** The revision that counts now. */
  readonly countingId: string | undefined
  readonly zone: string
}

/** Every revision, the newest first: who entered it, who decided on it, and from when it counts. */
export function SheetHistory({ sheets, countingId, zone }: Props) {
  const columns: readonly Column<ProductSheet>[] = [
    { head: 'products.revision', cell: ({ revision }) => revision },
    { head: 'products.issued', cell: ({ issuedOn }) => formatDate(issuedOn) },
    {
      head: 'products.countsFrom',
      cell: ({ validFrom }) => (validFrom ? formatDate(validFrom) : 'approval'),
    },
    {
      head: 'products.recorded',
      cell: ({ recordedBy, recordedAt }) => (
        <>
          <When at={recordedAt} zone={zone} style="date" />
          {recordedBy && `, ${recordedBy}`}
        </>
      ),
    },
    { head: 'products.decided', cell: (sheet) => <Decided sheet={sheet} zone={zone} /> },
    {
      head: 'products.state',
      cell: ({ id, approval, rejection }) =>
        id === countingId ? (
          <Mark tone="ready">{t('products.countsNow')}</Mark>
        ) : rejection ? (
          <Mark tone="quiet">{t('products.neverCounts')}</Mark>
        ) : approval ? (
          ''
        ) : (
          <Mark tone="warning">{t('products.waits')}</Mark>
        ),
    },
  ]
  if (sheets.length === 0) return null
  return (
    <Section title={t('products.revisionsOfTheSheet')}>
      <Table
        caption={t('products.revisionsOfTheSheet')}
        columns={columns}
        rows={sheets}
        rowKey={({ id }) => id}
      />
    </Section>
  )
}

function Decided({
  sheet: { approval, rejection },
  zone,
}: {
  readonly sheet: ProductSheet
  readonly zone: string
}) {
  const decision = approval ?? rejection
  if (decision === null) return <>{t('products.waitingForASecondPerson')}</>
  return (
    <>
      {rich(approval ? 'products.approved' : 'products.turnedDown', {
        at: <When at={decision.at} zone={zone} style="date" />,
        by: decision.by,
      })}
      {approval?.secondLook === true && `, ${t('products.onASecondLook')}`}
      {rejection && `: ${rejection.reason}`}
    </>
  )
}
