import { readDay } from '@clampclock/quantities'

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i

/** Readers of one search parameter each: what makes no sense is taken for absent, so that a bad link still opens. */
export function oneOf<const Value extends string>(raw: unknown, values: readonly Value[]): Value | undefined {
  return values.find((value) => value === raw)
}

export function textOf(raw: unknown, maxLength = 120): string | undefined {
  // The router reads `?code=1234` as a number.
  const text = typeof raw === 'number' ? String(raw) : raw
  if (typeof text !== 'string') return undefined
  const trimmed = text.trim().slice(0, maxLength)
  return trimmed === '' ? undefined : trimmed
}

export function uuidOf(raw: unknown): string | undefined {
  return typeof raw === 'string' && UUID.test(raw) ? raw : undefined
}

export function dayOf(raw: unknown): string | undefined {
  return typeof raw === 'string' && readDay(raw) !== undefined ? raw : undefined
}
