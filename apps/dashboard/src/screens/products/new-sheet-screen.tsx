import { ROUTES } from '@clampclock/contracts'
import { Button, Stack } from '@mantine/core'
import { useForm } from '@mantine/form'
import { Link, useNavigate, useParams } from '@tanstack/react-router'
import { useAction } from '../../api/use-action.ts'
import { unitOf, useOneShop } from '../../lib/shop-scope.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { Page, Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { SheetFields } from './sheet-fields.tsx'
import { emptySheet, sheetBody, type SheetValues } from './sheet-values.ts'

/** A new revision; bonds made before keep the one that they were made by. */
export function NewSheetScreen() {
  const { productId } = useParams({ from: '/in/products/$productId/sheet' })
  const navigate = useNavigate()
  const unit = unitOf(useOneShop().shop)
  const form = useForm<SheetValues>({ initialValues: emptySheet })
  const add = useAction(ROUTES.addProductSheet, {
    topics: ['products', 'bonds'],
    onDone: () => void navigate({ to: '/products/$productId', params: { productId } }),
  })
  const others = useFormReasons(form, add.error)
  return (
    <Page
      title="New data-sheet revision"
      lede="Bonds made before keep the revision that they were made by."
      narrow
      actions={
        <Link to="/products/$productId" params={{ productId }}>
          Back to the product
        </Link>
      }
    >
      <Sheet padded>
        <form
          onSubmit={form.onSubmit((values) => add.mutate({ params: { productId }, body: sheetBody(values) }))}
        >
          <Stack gap="md">
            <SheetFields form={form} unit={unit} />
            <ProblemPanel error={add.error} reasons={others} />
            <Button type="submit" size="md" loading={add.isPending}>
              Record revision
            </Button>
          </Stack>
        </form>
      </Sheet>
    </Page>
  )
}
