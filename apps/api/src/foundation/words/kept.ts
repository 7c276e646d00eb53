import type { Message, Told } from '@clampclock/messages'
import type { Prisma } from '../../generated/prisma/client.ts'
import { asJson } from './params.ts'
import { inEnglish } from './words.ts'

/**
 * A reason for its two columns: `reason` as it is told then, which records and exports keep, and `said`, the same as data,
 * where the service gave it.
 */
export function keptReason(told: Told): { readonly reason: string; readonly said?: Prisma.InputJsonValue } {
  return typeof told === 'string' ? { reason: told } : { reason: inEnglish(told), said: asJson(told) }
}

/** As `keptReason`, of a name. */
export function keptName(told: Told): { readonly name: string; readonly nameSaid?: Prisma.InputJsonValue } {
  const { reason: name, said } = keptReason(told)
  return said === undefined ? { name } : { name, nameSaid: said }
}

/** What two columns keep: as data where the service said it, else as somebody wrote it. */
export function toldOf(text: string, said: unknown): Told {
  return (said as Message | null) ?? text
}

/** The name of an operation: of a step that the program brought along as data. */
export function nameOf({ name, nameSaid }: { readonly name: string; readonly nameSaid: unknown }): Told {
  return toldOf(name, nameSaid)
}
