/** A fraction as whole percent, 0 to 100, rounded down: 99.9 % is not reached. */
export function percentOf(fraction: number): number {
  return Math.floor(Math.min(1, Math.max(0, fraction)) * 100 + 1e-9)
}
