import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { Check } from 'lucide-react'
import { useState } from 'react'
import { useMay } from '../../api/use-me.ts'
import type { Alert } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { formatNear } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { ALERT } from '../../lib/words.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { AlertMenuButton } from './alert-menu-button.tsx'
import { AlertLink } from './alert-link.tsx'
import { lazily } from '../../ui/lazily.tsx'
import styles from './alert-row.module.css'
import { t } from '../../lib/reader.ts'

const AlertMenu = lazily(async () => (await import('./alert-menu.tsx')).AlertMenu, AlertMenuButton)

const TONE = { danger: 'danger', warning: 'warning', notice: 'quiet' } as const

/** One alert: what, where, since when; a link to its subject, and 'Assign to me'. */
export function AlertRow({ alert }: { readonly alert: Alert }) {
  const shop = useShop(alert.shopId)
  const may = useMay()
  const [isPressed, setPressed] = useState(false)
  const nowMs = useNow(60_000)
  const acknowledge = useAction(ROUTES.acknowledgeAlert, { topics: ['alerts'] })
  const near = (at: string) => formatNear(at, zoneOf(shop), nowMs)
  const mayTake = alert.acknowledged === null && alert.closedAt === null && may('handleAlerts', alert.shopId)
  return (
    <li className={styles['row']}>
      <Mark tone={alert.closedAt === null ? TONE[alert.severity] : 'quiet'}>{ALERT[alert.kind]}</Mark>
      <div>
        <p className={styles['message']}>
          <AlertLink alert={alert}>{alert.message}</AlertLink>
        </p>
        <p className={styles['meta']}>
          {shop?.name} · <time dateTime={alert.openedAt}>{near(alert.openedAt)}</time>
          {alert.owner !== null && ` · ${t('features.isHandlingIt', { name: alert.owner.name })}`}
          {alert.snoozed !== null &&
            Date.parse(alert.snoozed.until) > nowMs &&
            ` · ${t('features.snoozedByUntil', { by: alert.snoozed.by, until: near(alert.snoozed.until) })}`}
          {alert.resolution !== null &&
            ` · ${t('features.resolvedBy', { by: alert.resolution.by, reason: alert.resolution.reason })}`}
          {alert.closedAt !== null && ` · ${t('features.closed', { closedAt: near(alert.closedAt) })}`}
          {alert.needsDisposition &&
            alert.closedAt === null &&
            ` · ${t('features.closesWhenTheJointIsAcceptedOrMade')}`}
        </p>
        <ProblemPanel error={acknowledge.error} />
      </div>
      <div className={styles['acts']}>
        {mayTake && (
          <Button
            variant="default"
            size="xs"
            leftSection={<Check size={16} aria-hidden />}
            loading={acknowledge.isPending}
            onClick={() => acknowledge.mutate({ params: { alertId: alert.id } })}
          >
            {t('features.assignToMe')}
          </Button>
        )}
        {alert.closedAt === null &&
          may('handleAlerts', alert.shopId) &&
          (isPressed ? (
            <AlertMenu alert={alert} />
          ) : (
            <AlertMenuButton alert={alert} onClick={() => setPressed(true)} />
          ))}
      </div>
    </li>
  )
}
