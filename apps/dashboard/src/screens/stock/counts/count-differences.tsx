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
import { t } from '../../../lib/reader.ts'

type Difference = NonNullable<StockCount['differences']>[number]

const COLUMNS: readonly Column<Difference>[] = [
  {
    head: 'stock.cartridge2',
    cell: (row) => (
      <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: row.cartridgeId }}>
        {row.code}
      </Link>
    ),
  },
  {
    head: 'stock.productAndLot',
    cell: (row) => t('stock.lot3', { productName: row.productName, lotNumber: row.lotNumber }),
  },
  { head: 'stock.differences', cell: (row) => COUNT_DIFFERENCE[row.kind] },
  {
    head: 'stock.booked2',
    cell: (row) =>
      row.settled === null ? (
        <Mark tone="warning">{t('stock.open')}</Mark>
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
      <Answer tone="ready" question={t('stock.doesTheShelfAgreeWithTheRecord')} word={t('stock.yes')}>
        <p>{t('stock.seenNothingDiffers', { entries: count.entries.length })}</p>
      </Answer>
    )
  }
  return (
    <>
      <Answer
        tone={unsettled > 0 ? 'warning' : 'ready'}
        question={t('stock.doesTheShelfAgreeWithTheRecord')}
        word={unsettled > 0 ? t('stock.noToBook', { unsettled }) : t('stock.itDoesNow')}
      >
        <p>{t('stock.seenLookAgainBeforeYouBookACartridge', { entries: count.entries.length })}</p>
        {unsettled > 0 && may('handleStock', count.shopId) && (
          <Button onClick={open}>{t('stock.bookTheDifferences')}</Button>
        )}
      </Answer>
      <Section title={t('stock.differences')}>
        <Table
          caption={t('stock.differences')}
          columns={COLUMNS}
          rows={differences}
          rowKey={({ cartridgeId }) => cartridgeId}
        />
      </Section>
      {opened && (
        <ReasonDialog
          opened
          title={t('stock.bookDifferences', { unsettled })}
          onClose={close}
          reasonLabel={t('stock.whyDoTheyDifferAsFarAsYouKnow')}
          confirmLabel={t('stock.bookThem')}
          isPending={settle.isPending}
          error={settle.error}
          onConfirm={(reason) => settle.mutate({ params: { countId: count.id }, body: { reason } })}
        >
          <p style={{ margin: 0 }}>{t('stock.whatWasNotFoundBecomesMissingWhatWas')}</p>
        </ReasonDialog>
      )}
    </>
  )
}
