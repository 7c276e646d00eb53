import type { Tx } from '../../foundation/database/database.ts'
import type { Attachment } from '../../generated/prisma/client.ts'
import { appendToRecord, type RecordEvent } from '../records/chain.ts'

export type AttachmentRow = Omit<Attachment, 'content'>

/** What the record of a bond keeps of a photo or note: a note in its words, a photo by the hash of its bytes. */
export function addedEvent(row: AttachmentRow): RecordEvent {
  const { id, jointId, bondId, kind, text, mediaType, width, height, bytes, sha256, takenAt } = row
  const photo = kind === 'photo' ? { mediaType, width, height, bytes, sha256, takenAt } : {}
  return {
    kind: kind === 'photo' ? 'photoAdded' : 'noteAdded',
    at: row.at,
    facts: {
      by: row.recordedBy,
      personId: row.recordedById,
      attachmentId: id,
      jointId,
      bondId,
      text,
      ...photo,
    },
  }
}

export function withdrawnEvent(row: AttachmentRow): RecordEvent {
  return {
    kind: 'attachmentWithdrawn',
    at: row.withdrawnAt!,
    facts: {
      by: row.withdrawnBy!,
      personId: row.withdrawnById,
      attachmentId: row.id,
      what: row.kind,
      reason: row.withdrawalReason,
    },
  }
}

/**
 * Writes into the record of the bond, or of every bond of the joint, what was added or withdrawn. Of the vehicle nothing is:
 * a record is a bond's. What is of a joint that was never bonded waits for its first bond (`eventsBefore`).
 */
export async function tellRecords(
  tx: Tx,
  row: AttachmentRow,
  event: (row: AttachmentRow) => RecordEvent,
  now: Date,
): Promise<void> {
  if (row.jointId === null) return
  const bonds = await tx.bond.findMany({
    // A bond from before records were chained has none.
    where: {
      jointId: row.jointId,
      ...(row.bondId === null ? {} : { id: row.bondId }),
      bondRecordEntries: { some: {} },
    },
    orderBy: { attempt: 'asc' },
    select: { id: true, shopId: true, organizationId: true },
  })
  for (const bond of bonds) await appendToRecord(tx, bond, now, [event(row)])
}

/** What is on file of a joint that is being bonded: its new record begins with it. The joint is locked. */
export async function eventsBefore(tx: Tx, jointId: string): Promise<RecordEvent[]> {
  const rows = await tx.attachment.findMany({
    where: { jointId, bondId: null },
    omit: { content: true },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  })
  return rows.flatMap((row) => [addedEvent(row), ...(row.withdrawnAt ? [withdrawnEvent(row)] : [])])
}
