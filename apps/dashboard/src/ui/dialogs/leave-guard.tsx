import { Button, Group, Modal } from '@mantine/core'
import { useBlocker } from '@tanstack/react-router'
import { t } from '../../lib/reader.ts'

interface Props {
  /** Asked at the moment of leaving. */
  readonly isUnsaved: () => boolean
}

/** Asks before what was typed is lost: on the way to another screen, another shop, or out of the program. */
export function LeaveGuard({ isUnsaved }: Props) {
  const blocker = useBlocker({
    shouldBlockFn: isUnsaved,
    enableBeforeUnload: isUnsaved,
    withResolver: true,
  })
  if (blocker.status !== 'blocked') return null
  return (
    <Modal opened onClose={blocker.reset} title={t('ui.leaveWithoutSaving')}>
      <p>{t('ui.whatYouChangedHereHasNotBeenSaved')}</p>
      <Group justify="flex-end" mt="md">
        <Button variant="default" onClick={blocker.proceed}>
          {t('ui.leaveAndDropTheChanges')}
        </Button>
        <Button data-autofocus onClick={blocker.reset}>
          {t('ui.stay')}
        </Button>
      </Group>
    </Modal>
  )
}
