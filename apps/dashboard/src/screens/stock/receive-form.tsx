import { ROUTES } from '@clampclock/contracts'
import {
  Button,
  Checkbox,
  NativeSelect,
  NumberInput,
  SegmentedControl,
  Stack,
  TextInput,
} from '@mantine/core'
import type { UseFormReturnType } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { PackagePlus } from 'lucide-react'
import { useState } from 'react'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Product, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { Mark } from '../../ui/mark.tsx'
import { Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import styles from './receive.module.css'
import { NEXT_BOX, type Receipt, type ReceiveValues, type ScannedProduct } from './receipt.ts'

interface Props {
  readonly form: UseFormReturnType<ReceiveValues>
  readonly shops: readonly Shop[]
  readonly products: readonly Product[]
  /** The last label that was scanned; a new object for each scan. */
  readonly scanned: ScannedProduct | undefined
  readonly onReceived: (receipt: Receipt) => void
}

const nameOf = ({ id, name }: { readonly id: string; readonly name: string }) => ({ value: id, label: name })

export function ReceiveForm({ form, shops, products, scanned, onReceived }: Props) {
  const { values, setValues } = form
  // Each scan asks anew.
  const [lookedAt, setLookedAt] = useState<ScannedProduct>()
  const locations = useQuery(shopQueries.locations(values.shopId))
  const receive = useAction(ROUTES.receiveLot, {
    topics: ['stock', 'alerts', 'products'],
    onDone: (receipt) => {
      onReceived(receipt)
      // The next box is often of the same delivery and goes to the same shelf.
      setValues({ ...NEXT_BOX })
    },
  })
  const others = useFormReasons(form, receive.error)
  const isScanned = scanned !== undefined && values.gtin === scanned.gtin
  const hasLooked = lookedAt !== undefined && lookedAt === scanned
  const questions = isScanned ? scanned.questions : []
  const isNewGtin = isScanned && scanned.product === null
  const submit = form.onSubmit((filled) => receive.mutate(toRequest(filled)))
  return (
    <Sheet padded>
      <form onSubmit={submit}>
        <Stack gap="md">
          <NativeSelect
            label="Into shop"
            data={shops.map(nameOf)}
            {...form.getInputProps('shopId')}
            onChange={(event) => setValues({ shopId: event.currentTarget.value, locationId: '' })}
          />
          <NativeSelect
            label="Product"
            required
            {...(isNewGtin
              ? { description: `GTIN ${values.gtin} is new here: choose once, and it is remembered.` }
              : {})}
            data={[
              { value: '', label: 'Choose…' },
              ...products.filter((p) => p.retiredAt === null).map(nameOf),
            ]}
            {...form.getInputProps('productId')}
          />
          {isNewGtin && (
            <NumberInput
              label="Cartridges with one scan of it"
              description="1 for a cartridge; what is in it for a carton."
              min={1}
              max={500}
              {...form.getInputProps('cartridgesPerScan')}
            />
          )}
          <TextInput label="Lot number" required maxLength={20} {...form.getInputProps('lotNumber')} />
          <SegmentedControl
            aria-label="How the expiry is printed"
            data={[
              { value: 'day', label: 'Expiry printed with a day' },
              { value: 'month', label: 'Month only' },
            ]}
            value={values.precision}
            onChange={(precision) =>
              setValues({ precision: precision as 'day' | 'month', printedExpiry: '' })
            }
          />
          <TextInput
            label="Printed expiry"
            {...(values.precision === 'month' ? { description: 'The last day of the month counts.' } : {})}
            type={values.precision === 'day' ? 'date' : 'month'}
            required
            {...form.getInputProps('printedExpiry')}
          />
          <NumberInput
            label="Cartridges"
            description="Scan the same label once for each, or fill it in."
            required
            min={1}
            max={500}
            {...form.getInputProps('cartridges')}
          />
          <NativeSelect
            label="Put where"
            data={[{ value: '', label: 'No place yet' }, ...(locations.data?.items ?? []).map(nameOf)]}
            {...form.getInputProps('locationId')}
          />
          <TextInput label="Delivery note" maxLength={60} {...form.getInputProps('deliveryNote')} />
          {questions.length > 0 && (
            <fieldset className={styles['questions']}>
              <legend>Look at this first</legend>
              {questions.map(({ code, message }) => (
                <Mark key={code} tone="warning">
                  {message}
                </Mark>
              ))}
              <Checkbox
                label="I have looked: receive it all the same"
                checked={hasLooked}
                onChange={(event) => setLookedAt(event.currentTarget.checked ? scanned : undefined)}
              />
            </fieldset>
          )}
          <ProblemPanel error={receive.error} reasons={others} />
          <Button
            type="submit"
            size="md"
            leftSection={<PackagePlus size={18} aria-hidden />}
            loading={receive.isPending}
            disabled={questions.length > 0 && !hasLooked}
          >
            Receive
          </Button>
        </Stack>
      </form>
    </Sheet>
  )
}

function toRequest({
  shopId,
  precision,
  printedExpiry,
  locationId,
  deliveryNote,
  gtin,
  ...rest
}: ReceiveValues) {
  return {
    params: { shopId },
    body: {
      ...rest,
      cartridges: Number(rest.cartridges),
      cartridgesPerScan: Number(rest.cartridgesPerScan),
      serials: [...rest.serials],
      printedExpiry: precision === 'day' ? { date: printedExpiry } : { month: printedExpiry },
      locationId: locationId === '' ? null : locationId,
      deliveryNote: deliveryNote === '' ? null : deliveryNote,
      gtin: gtin === '' ? null : gtin,
    },
  }
}
