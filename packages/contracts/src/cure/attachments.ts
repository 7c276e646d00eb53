import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant, Note, Reason } from '../foundation/values.ts'

/** The largest photo that is kept, bytes: 400 kB, 1 kB = 1000 B. */
export const MOST_PHOTO_BYTES = 400_000

export const Attachment = z
  .object({
    id: Id,
    shopId: Id,
    repairOrderId: Id,
    jointId: Id.nullable().describe('null: of the vehicle'),
    bondId: Id.nullable().describe('null: of the vehicle or joint, and of no one attempt'),
    kind: z.enum(['photo', 'note']),
    text: z.string().describe('The note, or the caption of the photo, which may be empty'),
    photo: z
      .object({
        mediaType: z.enum(['image/jpeg', 'image/png', 'image/webp']),
        width: z.number().int().describe('Pixels, as it is shown'),
        height: z.number().int().describe('Pixels, as it is shown'),
        bytes: z.number().int(),
        sha256: z.string().describe('Of the bytes that are kept, hexadecimal'),
        takenAt: Instant.nullable().describe('By the word of the device that sent it'),
      })
      .nullable()
      .describe('null of a note'),
    at: Instant.describe('When it was added'),
    by: z.string(),
    withdrawal: z
      .object({ at: Instant, by: z.string(), reason: z.string() })
      .nullable()
      .describe('It stays on file, and counts no longer'),
  })
  .meta({ id: 'Attachment' })
export type Attachment = z.output<typeof Attachment>

/** What it is of, within the repair order: the vehicle where neither is given. */
const of = {
  jointId: Id.nullable().default(null).describe('Of this joint'),
  bondId: Id.nullable().default(null).describe('Of this attempt at its joint'),
}
const ofOrder = z.object({ repairOrderId: Id })
const ofAttachment = z.object({ attachmentId: Id })

export const attachmentRoutes = {
  listAttachments: defineRoute({
    method: 'GET',
    path: '/v1/repairOrders/:repairOrderId/attachments',
    operationId: 'listAttachments',
    tag: 'repairs',
    summary: 'Photos and notes of a vehicle, of its joints and of their bonds',
    description: 'The oldest first, withdrawn ones too.',
    access: 'readShop',
    params: ofOrder,
    status: 200,
    response: z.object({ items: z.array(Attachment) }),
  }),
  addPhoto: defineRoute({
    method: 'POST',
    path: '/v1/repairOrders/:repairOrderId/photos',
    operationId: 'addPhoto',
    tag: 'repairs',
    summary: 'Add a photo of a vehicle, a joint or a bond',
    description:
      'Judged by its bytes: a JPEG, PNG or WebP of at most 400 kB (1 kB = 1000 B) and 40 million pixels. Everything in it that is not the picture (place, device, instants, comments) is taken out before it is kept; which way up it is stays. ' +
      'Of a joint or bond it becomes part of the bond record, with its SHA-256.',
    access: 'documentWork',
    params: ofOrder,
    bodyLimit: 8 * 1024 * 1024,
    body: z.strictObject({
      ...of,
      caption: Note.max(200, 'must be at most 200 characters').default(''),
      takenAt: Instant.nullable().default(null),
      base64: z.base64('must be base64').min(1, 'is empty').describe('At most 400 kB'),
    }),
    status: 201,
    response: Attachment,
  }),
  addNote: defineRoute({
    method: 'POST',
    path: '/v1/repairOrders/:repairOrderId/notes',
    operationId: 'addNote',
    tag: 'repairs',
    summary: 'Add a note on a vehicle, a joint or a bond',
    description: 'Of a joint or bond it becomes part of the bond record.',
    access: 'documentWork',
    params: ofOrder,
    body: z.strictObject({ ...of, text: Note.min(1, 'must not be empty') }),
    status: 201,
    response: Attachment,
  }),
  getAttachmentContent: defineRoute({
    method: 'GET',
    path: '/v1/attachments/:attachmentId/content',
    operationId: 'getAttachmentContent',
    tag: 'repairs',
    summary: 'The picture of a photo',
    description: 'It never changes: its ETag is its SHA-256.',
    access: 'readShop',
    params: ofAttachment,
    status: 200,
    mediaType: 'image/*',
    response: z.string().meta({ format: 'binary' }),
  }),
  withdrawAttachment: defineRoute({
    method: 'POST',
    path: '/v1/attachments/:attachmentId/withdrawal',
    operationId: 'withdrawAttachment',
    tag: 'repairs',
    summary: 'Withdraw a photo or note, with a reason',
    description: 'Nothing is removed: it stays on file and in the record, as withdrawn.',
    access: 'documentWork',
    params: ofAttachment,
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: Attachment,
  }),
}
