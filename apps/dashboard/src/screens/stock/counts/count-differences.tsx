import { ROUTES } from '../../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Link } from '@tanstack/react-router'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import type { StockCount } from '../../../api/types.ts'
import { COUNT_DIFFERENCE, COUNT_SETTLEMENT } from '../../../lib/words.ts'
import { Answer } from '../../../ui/answers/answer.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section } from '../../../ui/page.tsx'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { Table, type Column } from '../../../ui/table.tsx'

type Difference = NonNullable<StockCount['differences']>[number]

const COLUMNS: readonly Column<Difference>[] = [
  {
    head: 'Cartridge',
    cell: (row) => (
      <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: row.cartridgeId }}>
        {row.code}
      </Link>
    ),
  },
  { head: 'Product and lot', cell: (row) => `${row.productName}, lot ${row.lotNumber}` },
  { head: 'Differences', cell: (row) => COUNT_DIFFERENCE[row.kind] },
  {
    head: 'Booked',
    cell: (row) =>
      row.settled === null ? (
        <Mark tone="warning">Open</Mark>
      ) : (
        <Mark tone="ready">{`${COUNT_SETTLEMENT[row.settled.how]}, ${row.settled.by}`}</Mark>
      ),
  },
]

interface Props {
  readonly count: StockCount
  readonly differences: readonly Difference[]
}

export function CountDifferences({ count, differences }: Props) {
  const may = useMay()
  const [opened, { open, close }] = useDisclosure()
  const unsettled = differences.filter(({ settled }) => settled === null).length
  const settle = useAction(ROUTES.settleStockCount, { topics: ['stock', 'alerts'], onDone: close })
  if (differences.length === 0) {
    return (
      <Answer tone="ready" question="Does the shelf agree with the record?" word="Yes">
        <p>{count.entries.length} seen, nothing differs.</p>
      </Answer>
    )
  }
  return (
    <>
      <Answer
        tone={unsettled > 0 ? 'warning' : 'ready'}
        question="Does the shelf agree with the record?"
        word={unsettled > 0 ? `No: ${unsettled} to book` : 'It does now'}
      >
        <p>{count.entries.length} seen. Look again before you book: a cartridge may stand behind another.</p>
        {unsettled > 0 && may('handleStock', count.shopId) && (
          <Button onClick={open}>Book the differences</Button>
        )}
      </Answer>
      <Section title="Differences">
        <Table
          caption="Differences"
          columns={COLUMNS}
          rows={differences}
          rowKey={({ cartridgeId }) => cartridgeId}
        />
      </Section>
      {opened && (
        <ReasonDialog
          opened
          title={`Book ${unsettled} ${unsettled === 1 ? 'difference' : 'differences'}`}
          onClose={close}
          reasonLabel="Why do they differ, as far as you know?"
          confirmLabel="Book them"
          isPending={settle.isPending}
          error={settle.error}
          onConfirm={(reason) => settle.mutate({ params: { countId: count.id }, body: { reason } })}
        >
          <p style={{ margin: 0 }}>
            What was not found becomes missing; what was seen is put on this shelf. Each is a movement in the
            ledger.
          </p>
        </ReasonDialog>
      )}
    </>
  )
}
