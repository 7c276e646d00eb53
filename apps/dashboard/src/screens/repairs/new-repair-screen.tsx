import { ROUTES } from '../../api/contracts.ts'
import { useNavigate } from '@tanstack/react-router'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { useOneShop } from '../../lib/shop-scope.ts'
import { Page } from '../../ui/page.tsx'
import { Empty } from '../../ui/waiting.tsx'
import { RepairForm } from './repair-form.tsx'
import { t } from '../../lib/reader.ts'

export function NewRepairScreen() {
  const may = useMay()
  const navigate = useNavigate()
  const { shop, shops } = useOneShop()
  const mine = shops.filter(({ id }) => may('planWork', id))
  const first = mine.find(({ id }) => id === shop?.id) ?? mine[0]
  const add = useAction(ROUTES.addRepairOrder, {
    topics: ['repairs'],
    onDone: ({ id }) => void navigate({ to: '/jobs/$repairOrderId', params: { repairOrderId: id } }),
  })
  return (
    <Page title={t('repairs.newRepairOrder')} narrow>
      {first === undefined ? (
        <Empty title={t('repairs.youMayNotOpenRepairOrdersInAnyShop')} />
      ) : (
        <RepairForm
          shops={mine}
          initial={{
            shopId: first.id,
            number: '',
            vehicle: '',
            plate: '',
            vin: '',
            promisedAt: '',
            ovenLimitC: undefined,
            priority: 'normal',
            note: '',
          }}
          isEdit={false}
          submitLabel={t('repairs.openRepairOrder')}
          isPending={add.isPending}
          error={add.error}
          onSubmit={({ shopId, number, vehicle, plate, vin, ovenLimitC, priority, note }, promisedAt) =>
            add.mutate({
              params: { shopId },
              body: {
                number,
                vehicle,
                plate: plate || null,
                vin: vin || null,
                note,
                priority,
                promisedAt,
                ovenLimitC: ovenLimitC ?? null,
              },
            })
          }
        />
      )}
    </Page>
  )
}
