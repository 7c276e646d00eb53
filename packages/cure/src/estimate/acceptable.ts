import { MS_PER_MINUTE } from '@clampclock/quantities'
import type { DataSheet } from '../sheet/data-sheet.ts'
import type { BondEstimate } from './estimate-figures.ts'

/**
 * From when a joint that no longer has its clamps on can be accepted after an inspection, ms: no inspector makes adhesive
 * cure. That is when it reaches handling strength on the careful line, as if it had stayed where it was measured.
 *
 * Where nobody measures there any more, the careful line only gets colder, and says nothing of the vehicle: then at the
 * latest once the longest time to full cure that its sheets publish is over (common practice, no source), and the
 * inspection has to tell. Where it is measured, and too cold, no time is promised at all.
 *
 * @param estimate as of now, the cure going on.
 * @param countsFromMs from when its cure is credited.
 * @param sheets all that it is judged by; none where it cannot be computed.
 * @returns null: not by what is known.
 */
export function acceptableFromMs(
  { handlingStrength, notes }: Pick<BondEstimate, 'handlingStrength' | 'notes'>,
  countsFromMs: number,
  sheets: readonly DataSheet[],
): number | null {
  if (sheets.length === 0) return null
  const { conservative } = handlingStrength.readyAt
  const carefulMs = conservative.kind === 'at' ? conservative.atMs : Infinity
  const isMeasured = !notes.some(({ kind }) => kind === 'staleTemperature' || kind === 'noTemperature')
  if (isMeasured) return carefulMs === Infinity ? null : carefulMs
  const longest = Math.max(...sheets.flatMap(({ points }) => points.map((point) => point.fullCureMinutes)))
  return Math.min(carefulMs, countsFromMs + longest * MS_PER_MINUTE)
}
