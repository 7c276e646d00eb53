import { useEffect, useState } from 'react'
import type { Joint } from '../../api/types.ts'
import { useMe } from '../../api/use-me.ts'
import { keptIn } from '../../lib/kept.ts'
import { NO_BAY, type Draft } from './application.ts'
import type { Press } from './press.ts'

/** What was measured or seen longer ago is measured and looked at again, ms. Common practice, no source. */
const MEASURED_FOR_MS = 15 * 60_000

/** A form that nobody has touched for so long is of another attempt, ms. Common practice, no source. */
const KEPT_FOR_MS = 8 * 3_600_000

/** What a reload, or a look at another page, must not lose. */
export interface KeptForm {
  /** Without what is undefined: the store writes none of it. */
  readonly draft: Partial<Draft>
  readonly press: Press
  /** How many attempts the joint had: a form is of the next one only. */
  readonly attempts: number
  /** Of the last change, ms since 1970 on the clock of this device. */
  readonly at: number
  /** The same of what was measured or looked at; a change of anything else makes it no younger. */
  readonly measuredAt: number
}

export interface Restored {
  readonly draft: Draft
  readonly press: Press
  /** Since when it is as it is; undefined where it begins anew. */
  readonly from: number | undefined
  /** What was measured, and prepared, is too long ago and was left out. */
  readonly isStale: boolean
}

/**
 * The form as it was left. Temperatures, what was stood by and what was prepared are of that hour: they come back for a
 * quarter of an hour only. A press that is not settled comes back with them whenever it was, since the very same is sent
 * again; one that was refused did not happen. Once there is another attempt the form is over: that press arrived.
 */
export function restoredFrom(
  kept: KeptForm | null,
  initial: Draft,
  attempts: number,
  nowMs: number,
): Restored {
  const anew: Restored = { draft: initial, press: {}, from: undefined, isStale: false }
  if (kept === null || kept.attempts !== attempts) return anew
  const { press, at, measuredAt } = kept
  // A clock that was set back says nothing of how long ago it was.
  const since = (ms: number) => (nowMs < ms ? Infinity : nowMs - ms)
  const isOn = press.openAt !== undefined
  if (!isOn && since(at) > KEPT_FOR_MS) return anew
  // What was undefined is not in what was written.
  const written = { ...initial, panelC: undefined, airC: undefined, amountMl: undefined, ...kept.draft }
  // Of a version of this page that took no answer for none: what was pressed is sent again as it was.
  const draft: Draft = isOn && written.bayId === '' ? { ...written, bayId: NO_BAY } : written
  // Of a version of this page that asked for the preparation in three words.
  if (!Array.isArray(draft.prepared)) return anew
  const isStale = !isOn && since(measuredAt) > MEASURED_FOR_MS
  if (!isStale) return { draft, press, from: at, isStale }
  const { panelC, airC, humidityPercent, prepared, confirmed, overrides, shortBecause } = initial
  return {
    draft: { ...draft, panelC, airC, humidityPercent, prepared, confirmed, overrides, shortBecause },
    press,
    from: at,
    isStale,
  }
}

const MEASURED = ['panelC', 'airC', 'humidityPercent', 'prepared'] as const

/**
 * The form of a joint, kept for this person on this device until the bond is started: a phone closes tabs by itself. Once
 * there is another attempt, whoever made it, it is dropped.
 */
export function useKeptForm(joint: Joint, initial: Draft) {
  const me = useMe()
  // As the form was opened: what it starts is no longer its own.
  const [attempts] = useState(joint.bonds.length)
  const kept = keptIn<KeptForm | null>(`clampclock.bond.${me.id}.${joint.id}`, null, localStorage)
  const [restored] = useState(() => restoredFrom(kept.get(), initial, attempts, Date.now()))
  const [draft, setDraft] = useState(restored.draft)
  const [press, setPress] = useState(restored.press)
  useEffect(() => {
    if (draft === restored.draft && press === restored.press) return
    kept.set((old) => {
      const at = Date.now()
      const isMeasured = old === null || MEASURED.some((name) => !isSame(old.draft[name], draft[name]))
      return { draft, press, attempts, at, measuredAt: isMeasured ? at : old.measuredAt }
    })
  }, [kept, restored, draft, press, attempts])
  const isOvertaken = joint.bonds.length !== attempts
  useEffect(() => {
    const there = kept.get()
    if (there !== null && there.attempts !== joint.bonds.length) kept.set(() => null)
  }, [kept, joint.bonds.length])
  return { restored, draft, setDraft, press, setPress, isOvertaken, forget: () => kept.set(() => null) }
}

/** As they are written: what was read back from the store is another object. */
function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b)
}
