import type { WireReason } from '@clampclock/contracts'
import { Button, Group, Modal, Stack } from '@mantine/core'
import { useState, type SubmitEvent } from 'react'
import { useMay } from '../../../api/use-me.ts'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { GateList } from './gate-list.tsx'
import { mayBeOverridden, overridesOf, refusalOf, type Written } from './refusal.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  /** What was refused, such as 'Not clamped yet'. */
  readonly title: string
  readonly goOnLabel: string
  readonly shopId: string
  readonly reasons: readonly WireReason[]
  readonly error: Error | null
  readonly isPending: boolean
  readonly onGoOn: (overrides: { code: string; reason: string }[]) => void
  readonly onClose: () => void
}

/** A gate refused: every reason by name, and for somebody entitled a written reason against each that may be overridden. */
export function GoOnDialog({ title, goOnLabel, shopId, reasons, error, isPending, onGoOn, onClose }: Props) {
  const [written, setWritten] = useState<Written>({})
  const isEntitled = useMay()('takeResponsibility', shopId)
  const mayGoOn = isEntitled && mayBeOverridden(reasons)
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    onGoOn(overridesOf(written))
  }
  return (
    <Modal opened onClose={onClose} title={title}>
      <form onSubmit={submit}>
        <Stack gap="md">
          <GateList
            reasons={reasons}
            shopId={shopId}
            written={written}
            isRequired={mayGoOn}
            isHopeless={!mayBeOverridden(reasons)}
            onWrite={(code, reason) => setWritten((old) => ({ ...old, [code]: reason }))}
          />
          {refusalOf(error) === undefined && <ProblemPanel error={error} />}
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              {t('features.back')}
            </Button>
            {mayGoOn && (
              <Button type="submit" color="red" loading={isPending}>
                {goOnLabel}
              </Button>
            )}
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
