import { attachmentRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind, bindDocument, bindPrepared } from '../../foundation/http/bind.ts'
import { addNote, addPhoto, contentOf, listAttachments, withdrawAttachment } from './attachments.ts'
import { toPicture } from './picture-body.ts'

const ENDING: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
}

export async function attachmentRoutes(app: App): Promise<void> {
  bind(app, contracts.listAttachments, ({ tx, actor, params }) =>
    listAttachments(tx, actor, params.repairOrderId),
  )
  bindPrepared(
    app,
    contracts.addPhoto,
    ({ base64 }) => toPicture(base64),
    ({ tx, actor, params, body, now, prepared }) =>
      addPhoto(tx, actor, params.repairOrderId, body, prepared, now),
  )
  bind(app, contracts.addNote, ({ tx, actor, params, body, now }) =>
    addNote(tx, actor, params.repairOrderId, body, now),
  )
  bindDocument(app, contracts.getAttachmentContent, async ({ tx, actor, params }) => {
    const { mediaType, sha256, bytes } = await contentOf(tx, actor, params.attachmentId)
    const name = `photo-${params.attachmentId}.${ENDING[mediaType] ?? 'bin'}`
    return { name, mediaType, unchanging: sha256, render: async () => bytes }
  })
  bind(app, contracts.withdrawAttachment, ({ tx, actor, params, body, now }) =>
    withdrawAttachment(tx, actor, params.attachmentId, body, now),
  )
}
