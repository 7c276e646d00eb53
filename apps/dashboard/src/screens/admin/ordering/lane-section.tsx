import { formatMoney } from '@clampclock/quantities'
import { ROUTES } from '../../../api/contracts.ts'
import { NativeSelect, NumberInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { replenishmentQueries } from '../../../api/queries/replenishment.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay, useShops } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Section } from '../../../ui/page.tsx'
import { Table } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { MoneyInput } from './money-input.tsx'
import { SectionHead } from '../../../ui/section-head.tsx'

/** The ways on which transfers are proposed. */
export function LaneSection({ currency }: { readonly currency: string }) {
  const lanes = useQuery(replenishmentQueries.lanes())
  const shops = useShops()
  const may = useMay()
  const [setting, { open, close }] = useDisclosure()
  const nameOf = (id: string) => shops.find((shop) => shop.id === id)?.name ?? ''
  return (
    <Section title="Transfer routes">
      <SectionHead addLabel="Set a way" onAdd={may('manageChain', null) ? open : undefined} />
      <Answered query={lanes} what="ways between shops">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="None yet.">Without a way, no transfer is proposed.</Empty>
          ) : (
            <Table
              caption="Transfer routes"
              columns={[
                { head: 'From', cell: ({ fromShopId }) => nameOf(fromShopId) },
                { head: 'To', cell: ({ toShopId }) => nameOf(toShopId) },
                { head: 'Days', number: true, cell: ({ days }) => days },
                {
                  head: 'Cost per trip',
                  number: true,
                  cell: ({ tripCents }) => formatMoney(tripCents, currency),
                },
              ]}
              rows={items}
              rowKey={({ fromShopId, toShopId }) => `${fromShopId} ${toShopId}`}
            />
          )
        }
      </Answered>
      {setting && <LaneDialog currency={currency} onClose={close} />}
    </Section>
  )
}

function LaneDialog({ currency, onClose }: { readonly currency: string; readonly onClose: () => void }) {
  const shops = useShops()
  const choices = shops.map(({ id, name }) => ({ value: id, label: name }))
  const form = useForm({
    initialValues: {
      fromShopId: shops[0]?.id ?? '',
      toShopId: shops[1]?.id ?? '',
      days: 1,
      tripCents: 0,
    },
  })
  const set = useAction(ROUTES.setTransferLane, { topics: ['stock'], onDone: onClose })
  const others = useFormReasons(form, set.error)
  const submit = form.onSubmit(({ fromShopId, toShopId, ...body }) =>
    set.mutate({ params: { fromShopId, toShopId }, body }),
  )
  return (
    <FormDialog
      title="Add a transfer route"
      onClose={onClose}
      onSubmit={submit}
      submitLabel="Save"
      isPending={set.isPending}
      error={set.error}
      reasons={others}
    >
      <NativeSelect label="From" data={choices} {...form.getInputProps('fromShopId')} />
      <NativeSelect label="To" data={choices} {...form.getInputProps('toShopId')} />
      <NumberInput
        label="Days until it can be used there"
        required
        min={0}
        max={60}
        allowDecimal={false}
        {...form.getInputProps('days')}
      />
      <MoneyInput
        label="Cost per trip"
        description="Whatever it carries; 0 where somebody drives there anyway"
        currency={currency}
        cents={form.values.tripCents}
        onChange={(cents) => form.setFieldValue('tripCents', cents)}
        error={form.errors['tripCents']}
      />
    </FormDialog>
  )
}
