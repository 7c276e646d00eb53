import { rich } from '../../../lib/rich.tsx'
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
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly product: Product
  readonly sheet: ProductSheet
  readonly unit: 'C' | 'F'
  readonly zone: string
}

function ToneMark({ tone }: Pick<SheetChange, 'tone'>) {
  switch (tone) {
    case 'faster':
      return <Mark tone="warning">{t('products.faster')}</Mark>
    case 'slower':
      return <Mark tone="curing">{t('products.slower')}</Mark>
    case 'other':
      return <Mark tone="quiet">{t('products.changed')}</Mark>
    case 'same':
      return null
  }
}

/** A revision that somebody typed and nobody has compared with the print yet: what it would change, and the decision. */
export function ProposedSheet({ product, sheet, unit, zone }: Props) {
  const may = useMay()
  const before = product.sheet
  const columns: readonly Column<SheetChange>[] = [
    { head: 'products.figure', cell: ({ what }) => what },
    ...(before
      ? [
          {
            head: { text: t('products.nowBy', { revision: before.revision }) },
            cell: ({ before: was }: SheetChange) => was ?? '',
          },
        ]
      : []),
    {
      head: { text: t('products.thenBy', { revision: sheet.revision }) },
      cell: ({ after, tone }) => (
        <>
          <strong>{after}</strong> {before !== null && <ToneMark tone={tone} />}
        </>
      ),
    },
  ]
  return (
    <Section title={t('products.revisionWaitsForASecondPerson', { revision: sheet.revision })}>
      <Sheet padded>
        <Stack gap="md">
          <p>
            {rich('products.recordedBy', {
              by: sheet.recordedBy ?? t('products.somebody'),
              at: <When at={sheet.recordedAt} zone={zone} style="full" />,
            })}{' '}
            {sheet.validFrom === null
              ? t('products.itCountsOnceApproved')
              : t('products.itCountsOnceApprovedAndNotBefore', { validFrom: formatDate(sheet.validFrom) })}
          </p>
          {sheet.answered.length > 0 && (
            <div>
              <Mark tone="warning">{t('products.lookedMistypedAndWasSaidToBeOnThe')}</Mark>
              <ul>
                {sheet.answered.map((sentence) => (
                  <li key={sentence}>{sentence}</li>
                ))}
              </ul>
            </div>
          )}
          <Table
            caption={t('products.whatRevisionChanges', { revision: sheet.revision })}
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
          label={t('products.iRecordedItAndHaveComparedEvery')}
          description={t('products.onlyWhereNobodyElseOfTheChainCould')}
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
          {t('products.approve', { revision: sheet.revision })}
        </Button>
        <Button variant="default" onClick={() => setIsRejecting(true)}>
          {t('products.turnDown')}
        </Button>
      </Group>
      <ReasonDialog
        title={t('products.turnDownRevision', { revision: sheet.revision })}
        opened={isRejecting}
        onClose={() => setIsRejecting(false)}
        reasonLabel={t('products.whatIsWrongWithIt')}
        confirmLabel={t('products.turnDown')}
        isDanger
        isPending={reject.isPending}
        error={reject.error}
        onConfirm={(reason) => reject.mutate({ params, body: { reason } })}
      />
    </>
  )
}
