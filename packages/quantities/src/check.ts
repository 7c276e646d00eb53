import type { Range } from './range.ts'

const shown = (value: unknown): string => (typeof value === 'string' ? `'${value}'` : String(value))

/**
 * The same sentence for every number that is refused: field, value, what is allowed and what to do.
 *
 * @throws RangeError when `value` is not a finite number inside `allowed` (both ends belong to it).
 */
export function requireInRange(
  field: string,
  value: number,
  allowed: Range,
  unit: string,
  fix: string,
): number {
  if (Number.isFinite(value) && value >= allowed.min && value <= allowed.max) return value
  const from = `${allowed.min} to ${allowed.max}${unit === '' ? '' : ` ${unit}`}`
  throw new RangeError(`${field} is ${shown(value)}, but must be ${from}: ${fix}`)
}

/** As `requireInRange`, for amounts that must be above zero. @throws RangeError */
export function requirePositive(field: string, value: number, unit: string, fix: string): number {
  if (Number.isFinite(value) && value > 0) return value
  throw new RangeError(`${field} is ${shown(value)}, but must be a number of ${unit} above zero: ${fix}`)
}

/** As `requireInRange`, for amounts that may be zero but never below it. @throws RangeError */
export function requireNotNegative(field: string, value: number, unit: string, fix: string): number {
  if (Number.isFinite(value) && value >= 0) return value
  throw new RangeError(`${field} is ${shown(value)}, but must be a number of ${unit}, zero or above: ${fix}`)
}
