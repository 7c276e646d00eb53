import { formatMoney } from '../../../lib/measures.ts'
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
import { t } from '../../../lib/reader.ts'

/** The ways on which transfers are proposed. */
export function LaneSection({ currency }: { readonly currency: string }) {
  const lanes = useQuery(replenishmentQueries.lanes())
  const shops = useShops()
  const may = useMay()
  const [setting, { open, close }] = useDisclosure()
  const nameOf = (id: string) => shops.find((shop) => shop.id === id)?.name ?? ''
  return (
    <Section title={t('admin.transferRoutes')}>
      <SectionHead addLabel={t('admin.setAWay')} onAdd={may('manageChain', null) ? open : undefined} />
      <Answered query={lanes} what={t('admin.waysBetweenShops')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noneYet')}>{t('admin.withoutAWayNoTransferIsProposed')}</Empty>
          ) : (
            <Table
              caption={t('admin.transferRoutes')}
              columns={[
                { head: 'admin.from2', cell: ({ fromShopId }) => nameOf(fromShopId) },
                { head: 'admin.to', cell: ({ toShopId }) => nameOf(toShopId) },
                { head: 'admin.days', number: true, cell: ({ days }) => days },
                {
                  head: 'admin.costPerTrip',
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
      title={t('admin.addATransferRoute')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('admin.save')}
      isPending={set.isPending}
      error={set.error}
      reasons={others}
    >
      <NativeSelect label={t('admin.from2')} data={choices} {...form.getInputProps('fromShopId')} />
      <NativeSelect label={t('admin.to')} data={choices} {...form.getInputProps('toShopId')} />
      <NumberInput
        label={t('admin.daysUntilItCanBeUsedThere')}
        required
        min={0}
        max={60}
        allowDecimal={false}
        {...form.getInputProps('days')}
      />
      <MoneyInput
        label={t('admin.costPerTrip')}
        description={t('admin.whateverItCarries0WhereSomebody')}
        currency={currency}
        cents={form.values.tripCents}
        onChange={(cents) => form.setFieldValue('tripCents', cents)}
        error={form.errors['tripCents']}
      />
    </FormDialog>
  )
}
