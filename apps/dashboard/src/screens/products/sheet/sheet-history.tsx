import type { ProductSheet } from '../../../api/types.ts'
import { formatDate } from '../../../lib/instants.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { When } from '../../../ui/when.tsx'

interface Props {
  readonly sheets: readonly ProductSheet[]
  /** The revision that counts now. */
  readonly countingId: string | undefined
  readonly zone: string
}

/** Every revision, the newest first: who entered it, who decided on it, and from when it counts. */
export function SheetHistory({ sheets, countingId, zone }: Props) {
  const columns: readonly Column<ProductSheet>[] = [
    { head: 'Revision', cell: ({ revision }) => revision },
    { head: 'Issued', cell: ({ issuedOn }) => formatDate(issuedOn) },
    { head: 'Counts from', cell: ({ validFrom }) => (validFrom ? formatDate(validFrom) : 'approval') },
    {
      head: 'Recorded',
      cell: ({ recordedBy, recordedAt }) => (
        <>
          <When at={recordedAt} zone={zone} style="date" />
          {recordedBy && `, ${recordedBy}`}
        </>
      ),
    },
    { head: 'Decided', cell: (sheet) => <Decided sheet={sheet} zone={zone} /> },
    {
      head: 'State',
      cell: ({ id, approval, rejection }) =>
        id === countingId ? (
          <Mark tone="ready">Counts now</Mark>
        ) : rejection ? (
          <Mark tone="quiet">Never counts</Mark>
        ) : approval ? (
          ''
        ) : (
          <Mark tone="warning">Waits</Mark>
        ),
    },
  ]
  if (sheets.length === 0) return null
  return (
    <Section title="Revisions of the sheet">
      <Table caption="Revisions of the sheet" columns={columns} rows={sheets} rowKey={({ id }) => id} />
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
  if (decision === null) return <>Waiting for a second person</>
  return (
    <>
      {approval ? 'Approved ' : 'Turned down '}
      <When at={decision.at} zone={zone} style="date" />, {decision.by}
      {approval?.secondLook === true && ', on a second look'}
      {rejection && `: ${rejection.reason}`}
    </>
  )
}
