import { Button, Group, Modal, Stack, Textarea } from '@mantine/core'
import { useState, type ReactNode, type SubmitEvent } from 'react'
import { ProblemPanel } from '../problem-panel.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly title: string
  readonly opened: boolean
  readonly onClose: () => void
  readonly reasonLabel: string
  readonly confirmLabel: string
  readonly isDanger?: boolean
  readonly isPending: boolean
  readonly error: Error | null
  readonly onConfirm: (reason: string) => void
  /** Fields above the reason. */
  readonly children?: ReactNode
}

/** An act that is kept for ever with a reason: what happens, why, and only then the button. */
export function ReasonDialog(props: Props) {
  const [reason, setReason] = useState('')
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    props.onConfirm(reason)
  }
  return (
    <Modal opened={props.opened} onClose={props.onClose} title={props.title}>
      <form onSubmit={submit}>
        <Stack gap="md">
          {props.children}
          <Textarea
            label={props.reasonLabel}
            description={t('ui.atLeast5CharactersStaysOnRecordFor')}
            required
            minLength={5}
            maxLength={2000}
            autosize
            minRows={2}
            data-autofocus
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          <ProblemPanel error={props.error} />
          <Group justify="flex-end">
            <Button variant="default" onClick={props.onClose}>
              {t('ui.back')}
            </Button>
            <Button
              type="submit"
              loading={props.isPending}
              {...(props.isDanger === true ? { color: 'red' } : {})}
            >
              {props.confirmLabel}
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
