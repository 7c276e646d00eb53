import { Button, Group, Modal, Stack } from '@mantine/core'
import type { WireReason } from '@clampclock/contracts'
import type { ReactNode, SubmitEventHandler } from 'react'
import { ProblemPanel } from '../problem-panel.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly title: string
  readonly onClose: () => void
  readonly onSubmit: SubmitEventHandler<HTMLFormElement>
  readonly submitLabel: string
  readonly isPending: boolean
  readonly error: Error | null
  /** Reasons that no field shows; all of them when left out. */
  readonly reasons?: readonly WireReason[]
  /** Wider than a few short fields need. */
  readonly isWide?: boolean
  /** What it is about can no longer be done. */
  readonly isClosed?: boolean
  readonly children: ReactNode
}

/** A short form in a dialog. */
export function FormDialog({
  title,
  onClose,
  onSubmit,
  submitLabel,
  isPending,
  error,
  reasons,
  isWide = false,
  isClosed = false,
  children,
}: Props) {
  return (
    <Modal opened onClose={onClose} title={title} size={isWide ? '42rem' : 'md'}>
      <form onSubmit={onSubmit}>
        <Stack gap="md">
          {children}
          <ProblemPanel error={error} {...(reasons ? { reasons } : {})} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              {t('ui.back')}
            </Button>
            <Button type="submit" loading={isPending} disabled={isClosed}>
              {submitLabel}
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
