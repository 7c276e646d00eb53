import { habitsOf, type AirHabits, type Known } from '@clampclock/cure'

const HOUR_MS = 3_600_000
/** Enough for every day of a week; it changes slowly, so it is read once an hour. */
export const HABIT_HOURS = 7 * 24

const kept = new Map<string, { readonly hour: number; readonly habits: AirHabits | undefined }>()
/** Rather learned again than kept for thermometers that are long gone. */
const MOST_KEPT = 2000

/** What a thermometer does of itself, from the week before `at`; read again each hour. */
export async function habitsOfSensor(
  sensorId: string,
  at: Date,
  read: () => Promise<readonly Known[]>,
): Promise<AirHabits | undefined> {
  const hour = Math.floor(at.getTime() / HOUR_MS)
  const known = kept.get(sensorId)
  if (known?.hour === hour) return known.habits
  const habits = habitsOf(await read())
  if (kept.size >= MOST_KEPT) kept.clear()
  // While too little is known, the next reading may be the one that suffices.
  if (habits) kept.set(sensorId, { hour, habits })
  return habits
}

/** After readings were withdrawn, corrected or added to the past. */
export function forgetHabits(sensorId: string): void {
  kept.delete(sensorId)
}
