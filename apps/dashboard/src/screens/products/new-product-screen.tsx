import { ROUTES } from '../../api/contracts.ts'
import {
  Button,
  Fieldset,
  NativeSelect,
  NumberInput,
  SimpleGrid,
  Stack,
  Switch,
  TextInput,
} from '@mantine/core'
import { useForm } from '@mantine/form'
import { Link, useNavigate } from '@tanstack/react-router'
import { useAction } from '../../api/use-action.ts'
import { unitOf, useOneShop } from '../../lib/shop-scope.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { CHEMISTRY, choicesOf } from '../../lib/words.ts'
import { AnyUnitTemperature } from '../../ui/fields/any-unit-temperature.tsx'
import { Page, Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { emptyProduct, productBody } from './product-values.ts'

/** A product as its label and data sheet say; the cure figures come with its first sheet revision. */
export function NewProductScreen() {
  const navigate = useNavigate()
  const unit = unitOf(useOneShop().shop)
  const form = useForm({ initialValues: emptyProduct })
  const add = useAction(ROUTES.addProduct, {
    topics: ['products'],
    onDone: ({ id }) => void navigate({ to: '/products/$productId/sheet', params: { productId: id } }),
  })
  const others = useFormReasons(form, add.error)
  const { values, errors } = form
  return (
    <Page
      title="Add a product"
      lede="The cure figures of its data sheet come next."
      narrow
      actions={<Link to="/products">Back to products</Link>}
    >
      <Sheet padded>
        <form onSubmit={form.onSubmit((filled) => add.mutate({ body: productBody(filled) }))}>
          <Stack gap="md">
            <TextInput label="Name" required {...form.getInputProps('name')} />
            <SimpleGrid cols={{ base: 1, xs: 2 }}>
              <NativeSelect
                label="Chemistry"
                data={choicesOf(CHEMISTRY)}
                {...form.getInputProps('chemistry')}
              />
              <TextInput label="Mix ratio" placeholder="2:1" required {...form.getInputProps('mixRatio')} />
              <TextInput
                label="Cartridge form"
                description="The word your dispensers are listed with"
                required
                {...form.getInputProps('cartridgeForm')}
              />
              <NumberInput label="Content" suffix=" mL" required {...form.getInputProps('cartridgeMl')} />
              <NumberInput
                label="Open life"
                suffix=" days"
                required
                {...form.getInputProps('openLifeDays')}
              />
              <NumberInput
                label="Left in a nozzle"
                suffix=" mL"
                required
                {...form.getInputProps('nozzleHoldUpMl')}
              />
              <NumberInput
                label="Glass beads"
                suffix=" mm"
                step={0.05}
                required
                {...form.getInputProps('glassBeadMm')}
              />
            </SimpleGrid>
            <Fieldset legend="Storage">
              <SimpleGrid cols={{ base: 1, xs: 3 }}>
                <AnyUnitTemperature
                  label="Lowest"
                  unit={unit}
                  required
                  valueC={values.storageRangeC.min}
                  error={errors['storageRangeC.min']}
                  onChangeC={(value) => form.setFieldValue('storageRangeC.min', value)}
                />
                <AnyUnitTemperature
                  label="Highest"
                  unit={unit}
                  required
                  valueC={values.storageRangeC.max}
                  error={errors['storageRangeC.max']}
                  onChangeC={(value) => form.setFieldValue('storageRangeC.max', value)}
                />
                <AnyUnitTemperature
                  label="Printed expiry assumes"
                  unit={unit}
                  required
                  valueC={values.labelStorageC}
                  error={errors['labelStorageC']}
                  onChangeC={(value) => form.setFieldValue('labelStorageC', value)}
                />
              </SimpleGrid>
            </Fieldset>
            <Switch
              label="May go on e-coat"
              {...form.getInputProps('toleratesPrimer', { type: 'checkbox' })}
            />
            <ProblemPanel error={add.error} reasons={others} />
            <Button type="submit" size="md" loading={add.isPending}>
              Add product
            </Button>
          </Stack>
        </form>
      </Sheet>
    </Page>
  )
}
