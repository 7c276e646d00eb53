import type { Attachment, attachmentRoutes, BodyOf, ResultOf } from '@clampclock/contracts'
import { message } from '@clampclock/messages'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import type { Picture } from '../../foundation/pictures/picture.ts'
import { invalidField, notFound, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { addedEvent, tellRecords, withdrawnEvent, type AttachmentRow } from './recorded.ts'
import { lockedSubject, type Subject } from './subject.ts'

/** Of one vehicle, one joint or one bond, withdrawn ones too. What nobody looks through proves nothing. */
const MOST = { photo: 40, note: 200 } as const

const WITHOUT_CONTENT = { omit: { content: true } } as const

export async function addPhoto(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  { caption, takenAt, jointId, bondId }: Omit<BodyOf<typeof attachmentRoutes.addPhoto>, 'base64'>,
  { bytes: content, mediaType, width, height, sha256 }: Picture,
  now: Date,
): Promise<Attachment> {
  const subject = await lockedSubject(tx, actor, repairOrderId, { jointId, bondId })
  if (takenAt !== null && takenAt > now) throw invalidField('body.takenAt', message('attachment.inTheFuture'))
  await requireRoom(tx, subject, 'photo')
  const photo = { content, mediaType, width, height, sha256, bytes: content.length, takenAt }
  return keep(tx, actor, subject, { kind: 'photo', text: caption, ...photo }, now)
}

export async function addNote(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  { text, ...of }: BodyOf<typeof attachmentRoutes.addNote>,
  now: Date,
): Promise<Attachment> {
  const subject = await lockedSubject(tx, actor, repairOrderId, of)
  await requireRoom(tx, subject, 'note')
  return keep(tx, actor, subject, { kind: 'note', text }, now)
}

async function requireRoom(tx: Tx, subject: Subject, kind: keyof typeof MOST): Promise<void> {
  const { repairOrderId, jointId, bondId } = subject
  const there = await tx.attachment.count({ where: { repairOrderId, jointId, bondId, kind } })
  if (there >= MOST[kind])
    throw wrongState(
      message('attachment.full', { kind, most: MOST[kind] }),
      message('attachment.fullFix', { of: bondId ? 'bond' : jointId ? 'joint' : 'vehicle' }),
    )
}

type What = Pick<
  Prisma.AttachmentUncheckedCreateInput,
  'kind' | 'text' | 'content' | 'mediaType' | 'width' | 'height' | 'sha256' | 'bytes' | 'takenAt'
>

async function keep(tx: Tx, actor: Actor, subject: Subject, what: What, now: Date): Promise<Attachment> {
  const row = await tx.attachment.create({
    data: { ...subject, ...what, at: now, recordedBy: actor.name, recordedById: actor.id },
    ...WITHOUT_CONTENT,
  })
  await tellRecords(tx, row, addedEvent, now)
  await announceIt(tx, row)
  return toAttachment(row)
}

export async function withdrawAttachment(
  tx: Tx,
  actor: Actor,
  id: string,
  { reason }: BodyOf<typeof attachmentRoutes.withdrawAttachment>,
  now: Date,
): Promise<Attachment> {
  const { repairOrderId, jointId, bondId } = await attachmentRow(tx, id)
  await lockedSubject(tx, actor, repairOrderId, { jointId, bondId })
  // Locked: nobody withdraws it meanwhile.
  const before = await attachmentRow(tx, id)
  if (before.withdrawnAt)
    throw wrongState(message('attachment.withdrawnAlready', { by: before.withdrawnBy ?? '' }))
  const row = await tx.attachment.update({
    where: { id },
    data: { withdrawnAt: now, withdrawnBy: actor.name, withdrawnById: actor.id, withdrawalReason: reason },
    ...WITHOUT_CONTENT,
  })
  await tellRecords(tx, row, withdrawnEvent, now)
  await announceIt(tx, row)
  return toAttachment(row)
}

export async function listAttachments(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
): Promise<ResultOf<typeof attachmentRoutes.listAttachments>> {
  const order = await tx.repairOrder.findUnique({ where: { id: repairOrderId }, select: { shopId: true } })
  if (!order) throw notFound('repair order', repairOrderId)
  requireIn(actor, 'readShop', order.shopId)
  const rows = await tx.attachment.findMany({
    where: { repairOrderId },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    ...WITHOUT_CONTENT,
  })
  return { items: rows.map(toAttachment) }
}

export interface Content {
  readonly mediaType: string
  readonly sha256: string
  readonly bytes: Uint8Array
}

export async function contentOf(tx: Tx, actor: Actor, id: string): Promise<Content> {
  const row = await attachmentRow(tx, id)
  requireIn(actor, 'readShop', row.shopId)
  const { content } = await tx.attachment.findUniqueOrThrow({ where: { id }, select: { content: true } })
  if (content === null) throw notFound('photo', id)
  return { mediaType: row.mediaType!, sha256: row.sha256!, bytes: content }
}

async function attachmentRow(tx: Tx, id: string): Promise<AttachmentRow> {
  const row = await tx.attachment.findUnique({ where: { id }, ...WITHOUT_CONTENT })
  if (!row) throw notFound('attachment', id)
  return row
}

function announceIt(tx: Tx, { organizationId, shopId, repairOrderId }: AttachmentRow): Promise<void> {
  return announce(tx, { organizationId, shopId, topic: 'attachments', subjectId: repairOrderId })
}

function toAttachment(row: AttachmentRow): Attachment {
  const { id, shopId, repairOrderId, jointId, bondId, text, at } = row
  return {
    id,
    shopId,
    repairOrderId,
    jointId,
    bondId,
    kind: row.kind as Attachment['kind'],
    text,
    photo:
      row.kind === 'photo'
        ? {
            mediaType: row.mediaType as NonNullable<Attachment['photo']>['mediaType'],
            width: row.width!,
            height: row.height!,
            bytes: row.bytes!,
            sha256: row.sha256!,
            takenAt: row.takenAt,
          }
        : null,
    at,
    by: row.recordedBy,
    withdrawal: row.withdrawnAt && {
      at: row.withdrawnAt,
      by: row.withdrawnBy!,
      reason: row.withdrawalReason!,
    },
  }
}
