/** One inch in millimetres. Exact since the international yard and pound agreement of 1959. */
export const MM_PER_INCH = 25.4

/** Millimetres to inches. */
export function mmToInches(mm: number): number {
  return mm / MM_PER_INCH
}

/** Inches to millimetres. */
export function inchesToMm(inches: number): number {
  return inches * MM_PER_INCH
}
