import { formatRecordedVolume } from '../../lib/measures.ts'

/** A change with its sign, '+3', '−40'; nothing for no change, so that the column reads at a glance. */
export function signed(change: number): string {
  if (change === 0) return ''
  return change > 0 ? `+${change}` : `\u2212${Math.abs(change)}`
}

/** A change of content in mL in the reader's unit; nothing for less than a twentieth of a millilitre. */
export function signedVolume(changeMl: number): string {
  if (Math.abs(changeMl) < 0.05) return ''
  const text = formatRecordedVolume(Math.abs(changeMl))
  return changeMl > 0 ? `+${text}` : `\u2212${text}`
}
