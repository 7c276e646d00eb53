import { Button, Group, Modal, Stack } from '@mantine/core'
import type { ProblemReason } from '@clampclock/contracts'
import type { ReactNode, SubmitEventHandler } from 'react'
import { ProblemPanel } from '../../ui/problem-panel.tsx'

interface Props {
  readonly title: string
  readonly onClose: () => void
  readonly onSubmit: SubmitEventHandler<HTMLFormElement>
  readonly submitLabel: string
  readonly isPending: boolean
  readonly error: Error | null
  /** Reasons that no field shows. */
  readonly reasons: readonly ProblemReason[]
  readonly children: ReactNode
}

/** A short form in a dialog, as every thing of the administration has one. */
export function FormDialog({
  title,
  onClose,
  onSubmit,
  submitLabel,
  isPending,
  error,
  reasons,
  children,
}: Props) {
  return (
    <Modal opened onClose={onClose} title={title}>
      <form onSubmit={onSubmit}>
        <Stack gap="md">
          {children}
          <ProblemPanel error={error} reasons={reasons} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              Back
            </Button>
            <Button type="submit" loading={isPending}>
              {submitLabel}
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
