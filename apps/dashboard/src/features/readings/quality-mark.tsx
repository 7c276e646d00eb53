import { Mark } from '../../ui/answers/mark.tsx'
import type { Tone } from '../../ui/answers/tone.ts'

type Quality = 'good' | 'suspect' | 'withdrawn' | 'replaced'

const WORDS = {
  good: ['quiet', 'Good'],
  suspect: ['warning', 'Doubtful'],
  withdrawn: ['danger', 'Withdrawn'],
  replaced: ['danger', 'Replaced'],
} as const satisfies Record<Quality, readonly [Tone, string]>

/** Whether a reading counts, in icon and word. */
export function QualityMark({ quality }: { readonly quality: Quality }) {
  const [tone, word] = WORDS[quality]
  return <Mark tone={tone}>{word}</Mark>
}
