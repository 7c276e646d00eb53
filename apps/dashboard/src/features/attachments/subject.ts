import type { Attachment } from '../../api/types.ts'

/** What a photo or note may be of: the vehicle where both are null. */
export interface Subject {
  readonly jointId: string | null
  readonly bondId: string | null
  readonly label: string
}

export const keyOf = ({ jointId, bondId }: Pick<Subject, 'jointId' | 'bondId'>) => bondId ?? jointId ?? ''

/** What it is of, in words; undefined where the page shows none of that. */
export function labelOf(attachment: Attachment, subjects: readonly Subject[]): string | undefined {
  return subjects.find((subject) => keyOf(subject) === keyOf(attachment))?.label
}
