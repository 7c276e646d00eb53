import { differing, type Comparison, notInTable } from './differing.ts'
import { attachmentKey, attachmentsOf, withdrawalKey, type ToldBond } from './tables.ts'

type Facts = Readonly<Record<string, unknown>>

/** A photo or note of the bond, or of its joint, as its entry tells of it. The bytes of a photo are held against its hash. */
export function compareAttachment(
  kind: 'photo' | 'note',
  at: Date,
  facts: Facts,
  bond: ToldBond,
): Comparison {
  const key = attachmentKey(String(facts['attachmentId']))
  const row = attachmentsOf(bond).find(({ id }) => id === facts['attachmentId'])
  if (!row) return notInTable(key)
  return {
    rows: [key],
    differences: differing(key, [
      ['kind', kind, row.kind],
      ['at', at, row.at],
      ['joint_id', facts['jointId'], row.jointId],
      ['bond_id', facts['bondId'], row.bondId],
      ['text', facts['text'], row.text],
      ['sha256', facts['sha256'], row.sha256],
      ['media_type', facts['mediaType'], row.mediaType],
      ['width', facts['width'], row.width],
      ['height', facts['height'], row.height],
      ['bytes', facts['bytes'], row.bytes],
      ['taken_at', facts['takenAt'], row.takenAt?.toISOString() ?? null],
      ['recorded_by', facts['by'], row.recordedBy],
      ['recorded_by_id', facts['personId'], row.recordedById],
    ]),
  }
}

export function compareWithdrawal(at: Date, facts: Facts, bond: ToldBond): Comparison {
  const key = withdrawalKey(String(facts['attachmentId']))
  const row = attachmentsOf(bond).find(({ id }) => id === facts['attachmentId'])
  if (!row?.withdrawnAt) return notInTable(key)
  return {
    rows: [key],
    differences: differing(key, [
      ['withdrawn_at', at, row.withdrawnAt],
      ['withdrawn_by', facts['by'], row.withdrawnBy],
      ['withdrawn_by_id', facts['personId'], row.withdrawnById],
      ['withdrawal_reason', facts['reason'], row.withdrawalReason],
    ]),
  }
}
