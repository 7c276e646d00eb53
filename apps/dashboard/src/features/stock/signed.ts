/** A change with its sign, '+3', '−40'; nothing for no change, so that the column reads at a glance. */
export function signed(change: number): string {
  if (change === 0) return ''
  return change > 0 ? `+${change}` : `\u2212${Math.abs(change)}`
}
