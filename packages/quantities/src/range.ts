/** A closed range: both ends belong to it. The unit is in the name of the field that holds it. */
export interface Range {
  readonly min: number
  readonly max: number
}

/** Whether `value` lies in `range`, ends included. False for NaN. */
export function isWithin(range: Range, value: number): boolean {
  return value >= range.min && value <= range.max
}
