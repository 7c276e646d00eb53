import type { SheetQuestionKind } from '@clampclock/contracts'
import { ROUTES } from '../../../api/contracts.ts'
import { Button, Stack } from '@mantine/core'
import { useForm } from '@mantine/form'
import { Link, useNavigate, useParams } from '@tanstack/react-router'
import { useAction } from '../../../api/use-action.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Page, Sheet } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { SheetFields } from './sheet-fields.tsx'
import { confirmedOf, questionsOf } from './sheet-questions.ts'
import { SheetQuestion } from './sheet-question.tsx'
import { emptySheet, sheetBody, type SheetValues } from './sheet-values.ts'
import { reader, t } from '../../../lib/reader.ts'

/** A new revision; bonds made before keep the one that they were made by. */
export function NewSheetScreen() {
  const { productId } = useParams({ from: '/in/products/$productId/sheet' })
  const navigate = useNavigate()
  const unit = reader().temperature
  const form = useForm<SheetValues>({
    initialValues: emptySheet,
    // What was asked about may no longer be in the fields: it is asked again with what is.
    onValuesChange: () => {
      if (questions.length > 0) add.reset()
    },
  })
  const add = useAction(ROUTES.addProductSheet, {
    topics: ['products', 'bonds'],
    onDone: () => void navigate({ to: '/products/$productId', params: { productId } }),
  })
  const questions = questionsOf(add.error)
  const others = useFormReasons(form, questions.length > 0 ? null : add.error)
  const record = (confirmed: SheetQuestionKind[] = []) =>
    add.mutate({ params: { productId }, body: { ...sheetBody(form.getValues()), confirmed } })
  return (
    <Page
      title={t('products.newDataSheetRevision')}
      lede={t('products.itCountsOnceSomebodyElseHasCompared')}
      narrow
      actions={
        <Link to="/products/$productId" params={{ productId }}>
          {t('products.backToTheProduct')}
        </Link>
      }
    >
      <Sheet padded>
        <form onSubmit={form.onSubmit(() => record())}>
          <Stack gap="md">
            <SheetFields form={form} unit={unit} />
            <SheetQuestion
              questions={questions}
              isPending={add.isPending}
              onConfirm={() => record(confirmedOf(questions))}
            />
            {questions.length === 0 && <ProblemPanel error={add.error} reasons={others} />}
            <Button type="submit" size="md" loading={add.isPending}>
              {t('products.recordRevision')}
            </Button>
          </Stack>
        </form>
      </Sheet>
    </Page>
  )
}
