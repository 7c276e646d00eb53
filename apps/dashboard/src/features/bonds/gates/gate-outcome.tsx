import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import type { useGate } from './use-gate.ts'
import { lazily } from '../../../ui/lazily.tsx'

const GoOnDialog = lazily(async () => (await import('./go-on-dialog.tsx')).GoOnDialog)

interface Props {
  readonly gate: Pick<ReturnType<typeof useGate>, 'refusal' | 'error' | 'isPending' | 'close'>
  /** What was refused. */
  readonly title: string
  readonly goOnLabel: string
  readonly shopId: string
  readonly onGoOn: (overrides: { code: string; reason: string }[]) => void
}

/** What came of an act that gates may refuse; nothing while nothing stands against it. */
export function GateOutcome({ gate, ...rest }: Props) {
  const { refusal, error, isPending, close } = gate
  if (refusal === undefined) return <ProblemPanel error={error} />
  return <GoOnDialog {...rest} reasons={refusal} error={error} isPending={isPending} onClose={close} />
}
