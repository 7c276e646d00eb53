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

const SNOOZES = [
  { label: 'For four hours', hours: 4 },
  { label: 'Until tomorrow', hours: 24 },
  { label: 'For a week', hours: 24 * 7 },
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
            Assign to somebody…
          </Menu.Item>
          {alert.owner !== null && (
            <Menu.Item
              leftSection={<UserX size={16} aria-hidden />}
              onClick={() => give.mutate({ params, body: { personId: null } })}
            >
              Give it back: nobody has it
            </Menu.Item>
          )}
          {isSnoozed ? (
            <Menu.Item
              leftSection={<AlarmClockOff size={16} aria-hidden />}
              onClick={() => snooze.mutate({ params, body: { until: null } })}
            >
              Bring it back
            </Menu.Item>
          ) : (
            alert.severity !== 'danger' && (
              <>
                <Menu.Label>Out of sight</Menu.Label>
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
                Resolve
              </Menu.Item>
            </>
          )}
        </Menu.Dropdown>
      </Menu>
      {giving && <GiveDialog alert={alert} onClose={giveDialog.close} />}
      {resolving && (
        <ReasonDialog
          opened
          title="Resolve"
          onClose={dialog.close}
          reasonLabel="How?"
          confirmLabel="Resolve"
          isPending={resolve.isPending}
          error={resolve.error}
          onConfirm={(reason) => resolve.mutate({ params, body: { reason } })}
        >
          <p style={{ margin: 0 }}>
            {alert.message}. It is told again only once its cause has ended and come back.
          </p>
        </ReasonDialog>
      )}
    </>
  )
}
