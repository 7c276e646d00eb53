import type { Act } from './act.ts'

/** What one step changes, all of it or nothing. */
export interface Changes {
  readonly add?: readonly Omit<Act, 'seq'>[]
  readonly put?: readonly Act[]
  readonly remove?: readonly Act[]
}

/** Where acts are kept. Every tab of the device has the same. */
export interface ActStore {
  /** In the order of the presses. */
  readonly all: () => Promise<readonly Act[]>
  /** In one transaction: nobody changes anything between what `by` sees and what it does. */
  readonly change: (by: (acts: readonly Act[]) => Changes) => Promise<void>
  /**
   * Has `holder` be the one that sends until then. @returns false where another is, ms since 1970.
   */
  readonly lease: (holder: string, nowMs: number, untilMs: number) => Promise<boolean>
}

/** Where the browser keeps nothing (a private window of some): gone with the tab, and sent all the same. */
export function createMemoryStore(): ActStore {
  let held: readonly Act[] = []
  let count = 0
  return {
    all: () => Promise.resolve(held),
    change: async (by) => {
      const { add = [], put = [], remove = [] } = by(held)
      const gone = new Set(remove.map(({ seq }) => seq))
      const changed = new Map(put.map((act) => [act.seq, act]))
      held = [
        ...held.filter(({ seq }) => !gone.has(seq)).map((act) => changed.get(act.seq) ?? act),
        ...add.map((act) => ({ ...act, seq: ++count })),
      ]
      await Promise.resolve()
    },
    lease: () => Promise.resolve(true),
  }
}
