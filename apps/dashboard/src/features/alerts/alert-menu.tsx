import { ROUTES } from '../../api/contracts.ts'
import { Menu } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { AlarmClock, AlarmClockOff, CircleCheck, UserCheck, UserX } from 'lucide-react'
import { serverNowMs } from '../../api/server-clock.ts'
import { useAction } from '../../api/use-action.ts'
import type { Alert } from '../../api/types.ts'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'
import { AlertMenuButton } from './alert-menu-button.tsx'
import { GiveDialog } from './give-dialog.tsx'
import { t } from '../../lib/reader.ts'

const SNOOZES = [
  {
    get label() {
      return t('features.forFourHours')
    },
    hours: 4,
  },
  {
    get label() {
      return t('features.untilTomorrow')
    },
    hours: 24,
  },
  {
    get label() {
      return t('features.forAWeek')
    },
    hours: 24 * 7,
  },
] as const

/** What else can be done about an alert: give it to somebody or back, put it out of sight for a while, resolve it. */
export function AlertMenu({ alert }: { readonly alert: Alert }) {
  const [resolving, dialog] = useDisclosure()
  const [giving, giveDialog] = useDisclosure()
  const params = { alertId: alert.id }
  const snooze = useAction(ROUTES.snoozeAlert, { topics: ['alerts'] })
  const give = useAction(ROUTES.giveAlert, { topics: ['alerts'] })
  const resolve = useAction(ROUTES.resolveAlert, { topics: ['alerts'], onDone: dialog.close })
  const until = (hours: number) => new Date(serverNowMs() + hours * 3_600_000).toISOString()
  const isSnoozed = alert.snoozed !== null && Date.parse(alert.snoozed.until) > serverNowMs()
  return (
    <>
      <Menu defaultOpened position="bottom-end" width={240}>
        <Menu.Target>
          <AlertMenuButton alert={alert} />
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item leftSection={<UserCheck size={16} aria-hidden />} onClick={giveDialog.open}>
            {t('features.assignToSomebody')}
          </Menu.Item>
          {alert.owner !== null && (
            <Menu.Item
              leftSection={<UserX size={16} aria-hidden />}
              onClick={() => give.mutate({ params, body: { personId: null } })}
            >
              {t('features.giveItBackNobodyHasIt')}
            </Menu.Item>
          )}
          {isSnoozed ? (
            <Menu.Item
              leftSection={<AlarmClockOff size={16} aria-hidden />}
              onClick={() => snooze.mutate({ params, body: { until: null } })}
            >
              {t('features.bringItBack')}
            </Menu.Item>
          ) : (
            alert.severity !== 'danger' && (
              <>
                <Menu.Label>{t('features.outOfSight')}</Menu.Label>
                {SNOOZES.map(({ label, hours }) => (
                  <Menu.Item
                    key={hours}
                    leftSection={<AlarmClock size={16} aria-hidden />}
                    onClick={() => snooze.mutate({ params, body: { until: until(hours) } })}
                  >
                    {label}
                  </Menu.Item>
                ))}
              </>
            )
          )}
          {!alert.needsDisposition && (
            <>
              <Menu.Divider />
              <Menu.Item leftSection={<CircleCheck size={16} aria-hidden />} onClick={dialog.open}>
                {t('features.resolve')}
              </Menu.Item>
            </>
          )}
        </Menu.Dropdown>
      </Menu>
      {giving && <GiveDialog alert={alert} onClose={giveDialog.close} />}
      {resolving && (
        <ReasonDialog
          opened
          title={t('features.resolve')}
          onClose={dialog.close}
          reasonLabel={t('features.how')}
          confirmLabel={t('features.resolve')}
          isPending={resolve.isPending}
          error={resolve.error}
          onConfirm={(reason) => resolve.mutate({ params, body: { reason } })}
        >
          <p style={{ margin: 0 }}>
            {t('features.itIsToldAgainOnlyOnceItsCauseHas', { message: alert.message })}
          </p>
        </ReasonDialog>
      )}
    </>
  )
}
