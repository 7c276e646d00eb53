import { ROUTES } from '@clampclock/contracts'
import { Button, NativeSelect, NumberInput, SegmentedControl, Stack, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { PackagePlus } from 'lucide-react'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Product, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import type { Receipt } from './receipt.ts'

interface Props {
  readonly shops: readonly Shop[]
  readonly firstShop: Shop
  readonly products: readonly Product[]
  readonly onReceived: (receipt: Receipt) => void
}

const nameOf = ({ id, name }: { readonly id: string; readonly name: string }) => ({ value: id, label: name })

export function ReceiveForm({ shops, firstShop, products, onReceived }: Props) {
  const form = useForm({
    initialValues: {
      shopId: firstShop.id,
      productId: '',
      lotNumber: '',
      precision: 'day' as 'day' | 'month',
      printedExpiry: '',
      cartridges: 1 as number | string,
      locationId: '',
    },
  })
  const values = form.values
  const locations = useQuery(shopQueries.locations(values.shopId))
  const receive = useAction(ROUTES.receiveLot, {
    topics: ['stock', 'alerts'],
    onDone: (receipt) => {
      onReceived(receipt)
      // The next box is often of the same product and shelf.
      form.setValues({ lotNumber: '', printedExpiry: '', cartridges: 1 })
    },
  })
  const others = useFormReasons(form, receive.error)
  const submit = form.onSubmit(
    ({ shopId, productId, lotNumber, precision, printedExpiry, cartridges, locationId }) =>
      receive.mutate({
        params: { shopId },
        body: {
          productId,
          lotNumber,
          printedExpiry: precision === 'day' ? { date: printedExpiry } : { month: printedExpiry },
          cartridges: Number(cartridges),
          locationId: locationId === '' ? null : locationId,
        },
      }),
  )
  return (
    <Sheet padded>
      <form onSubmit={submit}>
        <Stack gap="md">
          <NativeSelect label="Into shop" data={shops.map(nameOf)} {...form.getInputProps('shopId')} />
          <NativeSelect
            label="Product"
            required
            data={[
              { value: '', label: 'Choose…' },
              ...products.filter((p) => p.retiredAt === null).map(nameOf),
            ]}
            {...form.getInputProps('productId')}
          />
          <TextInput label="Lot number" required maxLength={20} {...form.getInputProps('lotNumber')} />
          <SegmentedControl
            aria-label="How the expiry is printed"
            data={[
              { value: 'day', label: 'Expiry printed with a day' },
              { value: 'month', label: 'Month only' },
            ]}
            value={values.precision}
            onChange={(precision) =>
              form.setValues({ precision: precision as 'day' | 'month', printedExpiry: '' })
            }
          />
          <TextInput
            label="Printed expiry"
            {...(values.precision === 'month' ? { description: 'The last day of the month counts.' } : {})}
            type={values.precision === 'day' ? 'date' : 'month'}
            required
            {...form.getInputProps('printedExpiry')}
          />
          <NumberInput label="Cartridges" required min={1} max={500} {...form.getInputProps('cartridges')} />
          <NativeSelect
            label="Put where"
            data={[{ value: '', label: 'No place yet' }, ...(locations.data?.items ?? []).map(nameOf)]}
            {...form.getInputProps('locationId')}
          />
          <ProblemPanel error={receive.error} reasons={others} />
          <Button
            type="submit"
            size="md"
            leftSection={<PackagePlus size={18} aria-hidden />}
            loading={receive.isPending}
          >
            Receive
          </Button>
        </Stack>
      </form>
    </Sheet>
  )
}
