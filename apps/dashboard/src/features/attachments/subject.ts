import type { Attachment, Bond, Joint } from '../../api/types.ts'
import { t } from '../../lib/reader.ts'

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

/** On the page of a vehicle: the vehicle, each joint, and each attempt at it. */
export function ofVehicle(joints: readonly Pick<Joint, 'id' | 'name' | 'bonds'>[]): Subject[] {
  return [
    { jointId: null, bondId: null, label: t('attachments.theVehicle') },
    ...joints.flatMap(({ id: jointId, name, bonds }) => [
      { jointId, bondId: null, label: name },
      ...bonds.map(({ id: bondId, attempt }) => ({
        jointId,
        bondId,
        label: t('attachments.attemptAt', { joint: name, attempt }),
      })),
    ]),
  ]
}

/** On the page of one attempt: that, and its joint. */
export function ofBond({ id: bondId, jointId }: Pick<Bond, 'id' | 'jointId'>): Subject[] {
  return [
    { jointId, bondId, label: t('attachments.thisAttempt') },
    { jointId, bondId: null, label: t('attachments.theJoint') },
  ]
}
