import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { estimateBond, type BondHistory } from '../estimate/estimate.ts'
import { MILESTONES } from '../sheet/data-sheet.ts'
import { anyHistory, anyTrueHistory } from '../testing.ts'
import { inSteps, minuteOf } from './testing.ts'

/** What the steps of the plain way come to, as a share. */
const STEPS = 4e-3

/**
 * Where the two differ by more than the steps of the plain way can explain.
 *
 * @param spare by which share the outer lines may be more careful than they need. Beside readings in doubt they are: in a
 *   silence the estimate joins the hours by straight lines, and what is in doubt begins to count within one.
 */
function differences(history: BondHistory, spare: number): string[] {
  const plain = inSteps(history)
  const estimate = estimateBond(history)
  return MILESTONES.flatMap((milestone, m) =>
    (['conservative', 'expected', 'earliest'] as const).flatMap((line, n) => {
      const got = estimate[milestone].progress[line]
      const wanted = plain.progress[m]![n]!
      const ready = estimate[milestone].readyAt[line]
      const [at, wantedAt] = [ready.kind === 'at' ? minuteOf(ready.atMs) : null, plain.reached[m]![n]!]
      const wantedMinute = wantedAt === null ? null : minuteOf(wantedAt)
      const [less, more] = [line === 'conservative' ? spare : 0, line === 'earliest' ? spare : 0]
      const isSameProgress =
        got >= wanted - (STEPS + less) * (1 + wanted) && got <= wanted + (STEPS + more) * (1 + wanted)
      const isSameInstant =
        at === null || wantedMinute === null
          ? at === wantedMinute
          : at >= wantedMinute - 0.5 - STEPS * Math.abs(wantedMinute) - more &&
            at <= wantedMinute + 0.5 + STEPS * Math.abs(wantedMinute) + less
      if (isSameProgress && isSameInstant) return []
      return [`${milestone} ${line}: ${got} and ${wanted}, after ${at} and ${wantedMinute} min`]
    }),
  )
}

/** No lag so quick that a step of a minute is coarse for it, and not more of a forecast than there is patience for. */
const patient = (history: BondHistory): BondHistory => ({
  ...history,
  forecast: history.forecast.slice(0, 6),
  ...(history.panelTauMinutes !== undefined && { panelTauMinutes: history.panelTauMinutes + 3 }),
})

/** Some of the readings in doubt, never the first. */
const anyDoubtful = fc
  .tuple(anyHistory, fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }))
  .map(([history, inDoubt]) => ({
    ...history,
    readings: history.readings.map((reading, i) =>
      i > 0 && inDoubt[i] ? { ...reading, suspect: true as const } : reading,
    ),
  }))

describe('an estimate, and the same by small steps', () => {
  it.each([
    ['any that is read, however little it fits together', anyHistory, 0],
    ['metal that follows its air', anyTrueHistory, 0],
    ['readings in doubt among the others', anyDoubtful, Infinity],
  ] as const)('agree for %s', (_, histories, spare) => {
    fc.assert(
      fc.property(histories as fc.Arbitrary<BondHistory>, (history) => {
        expect(differences(patient(history), spare)).toEqual([])
      }),
      // Of its own seed: it is held against steps, and what steps make of one history in a million is no fault.
      { seed: 20261128, numRuns: 20, endOnFailure: true },
    )
  })
})
