import { t } from '../../lib/reader.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import type { Tone } from '../../ui/answers/tone.ts'

type Quality = 'good' | 'suspect' | 'withdrawn' | 'replaced'

const TONE = {
  good: 'quiet',
  suspect: 'warning',
  withdrawn: 'danger',
  replaced: 'danger',
} as const satisfies Record<Quality, Tone>

/** Whether a reading counts, in icon and word. */
export function QualityMark({ quality }: { readonly quality: Quality }) {
  return <Mark tone={TONE[quality]}>{t(`features.quality.${quality}`)}</Mark>
}
