import { useEffect, useState } from 'react'
import { useMe } from '../../api/use-me.ts'
import { keptIn } from '../../lib/kept.ts'
import type { Draft } from './application.ts'
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
  /** Of the last change, ms since 1970 on the clock of this device. */
  readonly at: number
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
 * quarter of an hour only, unless the adhesive is on. A press that is not settled comes back whenever it was.
 */
export function restoredFrom(kept: KeptForm | null, initial: Draft, nowMs: number): Restored {
  const anew: Restored = { draft: initial, press: {}, from: undefined, isStale: false }
  if (kept === null) return anew
  const { press, at } = kept
  // A clock that was set back says nothing of how long ago it was.
  const ageMs = nowMs < at ? Infinity : nowMs - at
  const isOn = press.openAt !== undefined || press.refusedAt !== undefined
  if (!isOn && ageMs > KEPT_FOR_MS) return anew
  // What was undefined is not in what was written.
  const draft = { ...initial, panelC: undefined, airC: undefined, amountMl: undefined, ...kept.draft }
  const isStale = !isOn && ageMs > MEASURED_FOR_MS
  if (!isStale) return { draft, press, from: at, isStale }
  const { panelC, airC, humidityPercent, prepared, confirmed, overrides, shortBecause } = initial
  return {
    draft: { ...draft, panelC, airC, humidityPercent, prepared, confirmed, overrides, shortBecause },
    press,
    from: at,
    isStale,
  }
}

/** The form of a joint, kept for this person in this tab until the bond is started. */
export function useKeptForm(jointId: string, initial: Draft) {
  const me = useMe()
  const kept = keptIn<KeptForm | null>(`clampclock.bond.${me.id}.${jointId}`, null)
  const [restored] = useState(() => restoredFrom(kept.get(), initial, Date.now()))
  const [draft, setDraft] = useState(restored.draft)
  const [press, setPress] = useState(restored.press)
  useEffect(() => {
    if (draft !== restored.draft || press !== restored.press)
      kept.set(() => ({ draft, press, at: Date.now() }))
  }, [kept, restored, draft, press])
  return { restored, draft, setDraft, press, setPress, forget: () => kept.set(() => null) }
}
