import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate, useParams } from '@tanstack/react-router'
import { isProblem } from '../../api/problem.ts'
import { repairQueries } from '../../api/queries/repairs.ts'
import type { RepairOrderDetail } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useShops } from '../../api/use-me.ts'
import { toWallClock } from '../../lib/instants.ts'
import { Page } from '../../ui/page.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { RepairForm } from './repair-form.tsx'
import { t } from '../../lib/reader.ts'

export function EditRepairScreen() {
  const { repairOrderId } = useParams({ from: '/in/jobs/$repairOrderId/edit' })
  const job = useQuery(repairQueries.one(repairOrderId))
  return (
    <Answered query={job} what={t('repairs.theRepairOrder')}>
      {(data) => <Edit job={data} />}
    </Answered>
  )
}

function Edit({ job }: { readonly job: RepairOrderDetail }) {
  const shops = useShops()
  const navigate = useNavigate()
  const params = { repairOrderId: job.id }
  const edit = useAction(ROUTES.editRepairOrder, {
    topics: ['repairs'],
    onDone: () => void navigate({ to: '/jobs/$repairOrderId', params }),
  })
  const zone = shops.find(({ id }) => id === job.shopId)?.timeZone ?? 'utc'
  const isOpen = job.state === 'open'
  return (
    <Page
      title={t('repairs.edit', { number: job.number })}
      narrow
      actions={
        <Link to="/jobs/$repairOrderId" params={params}>
          {t('repairs.backToTheJob')}
        </Link>
      }
    >
      {isProblem(edit.error, 'stale-version') && <p>{t('repairs.somebodyChangedItMeanwhileWhatYou')}</p>}
      <RepairForm
        shops={shops}
        initial={{
          shopId: job.shopId,
          number: job.number,
          vehicle: job.vehicle,
          plate: job.plate ?? '',
          vin: job.vin ?? '',
          promisedAt: job.promisedAt === null ? '' : toWallClock(job.promisedAt, zone),
          ovenLimitC: job.ovenLimitC ?? undefined,
          priority: job.priority,
          note: job.note,
        }}
        isEdit
        submitLabel={t('repairs.save')}
        isPending={edit.isPending}
        error={edit.error}
        onSubmit={({ vehicle, plate, vin, ovenLimitC, priority, note }, promisedAt) =>
          edit.mutate({
            params,
            ifMatch: job.version,
            body: {
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
      >
        <Button
          variant="default"
          loading={edit.isPending}
          onClick={() =>
            edit.mutate({ params, ifMatch: job.version, body: { state: isOpen ? 'done' : 'open' } })
          }
        >
          {isOpen ? t('repairs.closeTheRepairOrder') : t('repairs.openItAgain')}
        </Button>
      </RepairForm>
    </Page>
  )
}
