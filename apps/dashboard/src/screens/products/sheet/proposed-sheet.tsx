import { ROUTES } from '../../../api/contracts.ts'
import { Button, Checkbox, Group, Stack } from '@mantine/core'
import { useState } from 'react'
import { useAction } from '../../../api/use-action.ts'
import { useMay, useMe } from '../../../api/use-me.ts'
import type { Product, ProductSheet } from '../../../api/types.ts'
import { formatDate } from '../../../lib/instants.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section, Sheet } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { When } from '../../../ui/when.tsx'
import { SheetDocuments } from './sheet-documents.tsx'
import { sheetChanges, type SheetChange } from './sheet-changes.ts'

interface Props {
  readonly product: Product
  readonly sheet: ProductSheet
  readonly unit: 'C' | 'F'
  readonly zone: string
}

const TONE = {
  faster: <Mark tone="warning">Faster</Mark>,
  slower: <Mark tone="curing">Slower</Mark>,
  other: <Mark tone="quiet">Changed</Mark>,
  same: '',
} as const

/** A revision that somebody typed and nobody has compared with the print yet: what it would change, and the decision. */
export function ProposedSheet({ product, sheet, unit, zone }: Props) {
  const may = useMay()
  const before = product.sheet
  const columns: readonly Column<SheetChange>[] = [
    { head: 'Figure', cell: ({ what }) => what },
    ...(before
      ? [{ head: `Now, by ${before.revision}`, cell: ({ before: was }: SheetChange) => was ?? '' }]
      : []),
    {
      head: `Then, by ${sheet.revision}`,
      cell: ({ after, tone }) => (
        <>
          <strong>{after}</strong> {before !== null && TONE[tone]}
        </>
      ),
    },
  ]
  return (
    <Section title={`Revision ${sheet.revision} waits for a second person`}>
      <Sheet padded>
        <Stack gap="md">
          <p>
            Recorded by {sheet.recordedBy ?? 'somebody'},{' '}
            <When at={sheet.recordedAt} zone={zone} style="full" />. It counts for nothing until it is
            approved
            {sheet.validFrom === null ? '' : `, and not before ${formatDate(sheet.validFrom)}`}. Compare every
            figure with the maker&rsquo;s printed sheet.
          </p>
          {sheet.answered.length > 0 && (
            <div>
              <Mark tone="warning">Looked mistyped, and was said to be on the print:</Mark>
              <ul>
                {sheet.answered.map((sentence) => (
                  <li key={sentence}>{sentence}</li>
                ))}
              </ul>
            </div>
          )}
          <Table
            caption={`What revision ${sheet.revision} changes`}
            columns={columns}
            rows={sheetChanges(sheet, before, unit)}
            rowKey={({ what }) => what}
          />
          <SheetDocuments productId={product.id} sheet={sheet} />
          {may('manageCatalogue', null) && <Decision productId={product.id} sheet={sheet} />}
        </Stack>
      </Sheet>
    </Section>
  )
}

function Decision({ productId, sheet }: { readonly productId: string; readonly sheet: ProductSheet }) {
  const isOwn = useMe().id === sheet.recordedById
  const [secondLook, setSecondLook] = useState(false)
  const [isRejecting, setIsRejecting] = useState(false)
  const params = { productId, sheetId: sheet.id }
  const topics = ['products', 'bonds', 'alerts'] as const
  const approve = useAction(ROUTES.approveProductSheet, { topics })
  const reject = useAction(ROUTES.rejectProductSheet, { topics })
  return (
    <>
      {isOwn && (
        <Checkbox
          label="I recorded it, and have compared every figure with the print again"
          description="Only where nobody else of the chain could approve it, and on a later day than it was recorded."
          checked={secondLook}
          onChange={(event) => setSecondLook(event.currentTarget.checked)}
        />
      )}
      <ProblemPanel error={approve.error} />
      <Group>
        <Button
          loading={approve.isPending}
          disabled={isOwn && !secondLook}
          onClick={() => approve.mutate({ params, body: { secondLook: isOwn && secondLook } })}
        >
          Approve {sheet.revision}
        </Button>
        <Button variant="default" onClick={() => setIsRejecting(true)}>
          Turn down
        </Button>
      </Group>
      <ReasonDialog
        title={`Turn down revision ${sheet.revision}`}
        opened={isRejecting}
        onClose={() => setIsRejecting(false)}
        reasonLabel="What is wrong with it"
        confirmLabel="Turn down"
        isDanger
        isPending={reject.isPending}
        error={reject.error}
        onConfirm={(reason) => reject.mutate({ params, body: { reason } })}
      />
    </>
  )
}
