import type { Act } from '../../api/acts/act.ts'
import { useActs } from '../../api/acts/state.ts'
import { isKept, isTask } from '../../api/acts/task.ts'
import { useMe } from '../../api/use-me.ts'

export interface OpenActs {
  /** Without an answer so far. What was pressed just now is none of them: its answer is a moment away. */
  readonly waiting: readonly Act[]
  /** Not in the record, and not on its way there. */
  readonly tasks: readonly Act[]
  /** In the record after a wait, or seen, within the last day; the newest first. */
  readonly over: readonly Act[]
  /** Of other people: how many, and nothing else of them. */
  readonly others: number
}

/** What this person pressed on this device, of one joint or of all. */
export function useOpenActs(jointId?: string): OpenActs {
  const personId = useMe().id
  const { items } = useActs()
  const own = items.filter(
    (act) => act.personId === personId && (jointId === undefined || act.about.jointId === jointId),
  )
  return {
    waiting: own.filter((act) => isKept(act, items)),
    tasks: own.filter(isTask),
    over: own
      .filter(({ state, silence, isSeen }) => (state === 'sent' && silence !== null) || isSeen)
      .toSorted((a, b) => b.seq - a.seq),
    others: items.filter((act) => act.personId !== personId && (act.state === 'waiting' || isTask(act)))
      .length,
  }
}
