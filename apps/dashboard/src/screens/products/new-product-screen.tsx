import { LengthInput, VolumeInput } from '../../ui/fields/measure-input.tsx'
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
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { CHEMISTRY, choicesOf } from '../../lib/words.ts'
import { AnyUnitTemperature } from '../../ui/fields/any-unit-temperature.tsx'
import { Page, Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { emptyProduct, productBody } from './product-values.ts'
import { reader, t } from '../../lib/reader.ts'

/** A product as its label and data sheet say; the cure figures come with its first sheet revision. */
export function NewProductScreen() {
  const navigate = useNavigate()
  const unit = reader().temperature
  const form = useForm({ initialValues: emptyProduct })
  const add = useAction(ROUTES.addProduct, {
    topics: ['products'],
    onDone: ({ id }) => void navigate({ to: '/products/$productId/sheet', params: { productId: id } }),
  })
  const others = useFormReasons(form, add.error)
  const { values, errors } = form
  return (
    <Page
      title={t('products.addAProduct')}
      lede={t('products.theCureFiguresOfItsDataSheetComeNext')}
      narrow
      actions={<Link to="/products">{t('products.backToProducts')}</Link>}
    >
      <Sheet padded>
        <form onSubmit={form.onSubmit((filled) => add.mutate({ body: productBody(filled) }))}>
          <Stack gap="md">
            <TextInput label={t('products.name')} required {...form.getInputProps('name')} />
            <SimpleGrid cols={{ base: 1, xs: 2 }}>
              <NativeSelect
                label={t('products.chemistry')}
                data={choicesOf(CHEMISTRY)}
                {...form.getInputProps('chemistry')}
              />
              <TextInput
                label={t('products.mixRatio')}
                placeholder="2:1"
                required
                {...form.getInputProps('mixRatio')}
              />
              <TextInput
                label={t('products.cartridgeForm')}
                description={t('products.theWordYourDispensersAreListedWith')}
                required
                {...form.getInputProps('cartridgeForm')}
              />
              <VolumeInput label={t('products.content')} required {...form.getInputProps('cartridgeMl')} />
              <NumberInput
                label={t('products.openLife')}
                suffix={` ${t('products.daysAlone')}`}
                required
                {...form.getInputProps('openLifeDays')}
              />
              <VolumeInput
                label={t('products.leftInANozzle')}
                required
                {...form.getInputProps('nozzleHoldUpMl')}
              />
              <LengthInput
                label={t('products.glassBeads')}
                step={0.05}
                required
                {...form.getInputProps('glassBeadMm')}
              />
            </SimpleGrid>
            <Fieldset legend={t('products.storage')}>
              <SimpleGrid cols={{ base: 1, xs: 3 }}>
                <AnyUnitTemperature
                  label={t('products.lowest')}
                  unit={unit}
                  required
                  valueC={values.storageRangeC.min}
                  error={errors['storageRangeC.min']}
                  onChangeC={(value) => form.setFieldValue('storageRangeC.min', value)}
                />
                <AnyUnitTemperature
                  label={t('products.highest')}
                  unit={unit}
                  required
                  valueC={values.storageRangeC.max}
                  error={errors['storageRangeC.max']}
                  onChangeC={(value) => form.setFieldValue('storageRangeC.max', value)}
                />
                <AnyUnitTemperature
                  label={t('products.printedExpiryAssumes')}
                  unit={unit}
                  required
                  valueC={values.labelStorageC}
                  error={errors['labelStorageC']}
                  onChangeC={(value) => form.setFieldValue('labelStorageC', value)}
                />
              </SimpleGrid>
            </Fieldset>
            <Switch
              label={t('products.mayGoOnECoat')}
              {...form.getInputProps('toleratesPrimer', { type: 'checkbox' })}
            />
            <ProblemPanel error={add.error} reasons={others} />
            <Button type="submit" size="md" loading={add.isPending}>
              {t('products.addProduct')}
            </Button>
          </Stack>
        </form>
      </Sheet>
    </Page>
  )
}
