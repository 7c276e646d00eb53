import { Button } from '@mantine/core'
import { Link } from '@tanstack/react-router'
import { ROUTES } from '../../api/contracts.ts'
import type { Task } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { formatNear } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import styles from './my-work.module.css'
import { t } from '../../lib/reader.ts'

/** One task: when, what, on which vehicle, where; and its next step, or what it waits for. */
export function TaskRow({ task }: { readonly task: Task }) {
  const nowMs = useNow(30_000)
  const zone = zoneOf(useShop(task.shopId))
  const near = (iso: string) => formatNear(iso, zone, nowMs)
  const { state, startsAt, endsAt } = task
  return (
    <li className={styles['row']} aria-label={`${task.name}, ${task.vehicle}`}>
      <div className={styles['when']}>
        {state === 'underWay' && <Mark tone="curing">{t('my-work.underWay')}</Mark>}
        {state === 'late' && <Mark tone="warning">{t('my-work.late')}</Mark>}
        <span>
          {state === 'underWay'
            ? t('my-work.since', { startsAt: near(startsAt) })
            : endsAt === null
              ? near(startsAt)
              : t('my-work.fromTo', { startsAt: near(startsAt), endsAt: near(endsAt) })}
          {state === 'underWay' && endsAt !== null && ` · ${t('my-work.until', { endsAt: near(endsAt) })}`}
        </span>
      </div>
      <div className={styles['what']}>
        <strong>{task.name}</strong>
        <Link to="/jobs/$repairOrderId" params={{ repairOrderId: task.repairOrderId }}>
          {task.repairOrderNumber} · {task.vehicle}
        </Link>
        <span>
          {[task.jointName, task.placeName, task.note]
            .filter((part) => part !== null && part !== '')
            .join(' · ')}
        </span>
        {task.waitsFor !== null && <span>{t('my-work.waits', { waitsFor: task.waitsFor })}</span>}
      </div>
      <NextStep task={task} />
    </li>
  )
}

const TOPICS = ['repairs', 'plans', 'bookings'] as const

function NextStep({ task }: { readonly task: Task }) {
  const { kind, state, operationId, jointId, waitsFor } = task
  const mayWork = useMay()('makeBonds', task.shopId)
  const start = useAction(ROUTES.startOperation, { topics: TOPICS })
  const finish = useAction(ROUTES.finishOperation, { topics: TOPICS })
  if (!mayWork || operationId === null || waitsFor !== null) return null
  const isDue = state !== 'next'
  if (kind === 'bondAndClamp')
    return jointId === null ? null : (
      <div className={styles['step']}>
        <Button
          size="md"
          variant={isDue ? 'filled' : 'default'}
          renderRoot={(props) => (
            <Link
              {...props}
              to="/jobs/$repairOrderId/joints/$jointId/bond"
              params={{ repairOrderId: task.repairOrderId, jointId }}
            />
          )}
        >
          {t('my-work.startTheBond')}
        </Button>
      </div>
    )
  const [action, label] = state === 'underWay' ? [finish, t('my-work.finished')] : [start, t('my-work.start')]
  return (
    <div className={styles['step']}>
      <Button
        size="md"
        variant={isDue ? 'filled' : 'default'}
        aria-label={`${label}: ${task.name}, ${task.vehicle}`}
        loading={start.isPending || finish.isPending}
        onClick={() => {
          if (state === 'underWay') finish.mutate({ params: { operationId } })
          else start.mutate({ params: { operationId }, body: {} })
        }}
      >
        {label}
      </Button>
      <ProblemPanel error={action.error} />
    </div>
  )
}
