import { message } from '@clampclock/messages'
import type { Preferences } from '@clampclock/contracts'
import type { Person } from '../../generated/prisma/client.ts'
import type { Tx } from '../database/database.ts'
import type { Actor } from '../permissions/actor.ts'
import { wrongState } from '../problems/problem-error.ts'

/** Keeps how a person reads. @throws {ProblemError} `wrong-state` for a token, which reads for nobody in particular. */
export async function setPreferences(
  tx: Tx,
  { kind, id }: Actor,
  preferences: Preferences,
): Promise<Preferences> {
  if (kind !== 'person') throw wrongState(message('setup-problem.tokenNoLanguage'))
  const { temperature, volume, length, ...rest } = preferences
  await tx.person.update({
    where: { id },
    data: { ...rest, temperatureUnit: temperature, volumeUnit: volume, lengthUnit: length },
  })
  return preferences
}

/** As they stand in a person's row. */
export function preferencesOf(
  row: Pick<Person, 'language' | 'temperatureUnit' | 'volumeUnit' | 'lengthUnit' | 'clock' | 'firstDay'>,
): Preferences {
  const {
    language,
    temperatureUnit: temperature,
    volumeUnit: volume,
    lengthUnit: length,
    clock,
    firstDay,
  } = row
  // The database takes no others.
  return { language, temperature, volume, length, clock, firstDay } as Preferences
}
