import { createHash } from 'node:crypto'
import type { RecordEntry } from '@clampclock/contracts'
import { message } from '@clampclock/messages'
import type { Sheet } from '../../foundation/documents/pdf-sheet.ts'
import type { Tx } from '../../foundation/database/database.ts'

/** Bytes of photos by the id of their attachment. */
export type Pictures = ReadonlyMap<string, Uint8Array>

/** On paper; the others are named by their hash all the same. */
const MOST_PICTURES = 12
/** Of one picture, points. */
const FIT: readonly [width: number, height: number] = [260, 170]

const standing = (entries: readonly RecordEntry[]): RecordEntry[] => {
  const withdrawn = new Set(
    entries.filter(({ kind }) => kind === 'attachmentWithdrawn').map(({ facts }) => facts['attachmentId']),
  )
  return entries.filter(({ kind, facts }) => kind === 'photoAdded' && !withdrawn.has(facts['attachmentId']))
}

/** Those that will be drawn. */
export async function picturesOf(tx: Tx, entries: readonly RecordEntry[]): Promise<Pictures> {
  const ids = standing(entries)
    .slice(0, MOST_PICTURES)
    .map(({ facts }) => String(facts['attachmentId']))
  const rows = await tx.attachment.findMany({
    where: { id: { in: ids } },
    select: { id: true, content: true },
  })
  return new Map(rows.flatMap(({ id, content }) => (content ? [[id, content]] : [])))
}

/** Each photo that was not withdrawn, small, beside what its entry says of it. */
export function writePhotos(sheet: Sheet, entries: readonly RecordEntry[], pictures: Pictures): void {
  const photos = standing(entries)
  if (photos.length === 0) return
  sheet.heading(message('record.photos'))
  for (const { at, sequence, facts } of photos.slice(0, MOST_PICTURES)) {
    const picture = pictures.get(String(facts['attachmentId']))
    const isIt = picture && createHash('sha256').update(picture).digest('hex') === facts['sha256']
    sheet.picture(
      message('record.entry', { at: sheet.at(at), sequence }),
      String(facts['text']),
      isIt ? picture : undefined,
      isIt ? message('record.photoNotDrawn') : message('record.photoExchanged'),
      FIT,
    )
  }
  const more = photos.length - MOST_PICTURES
  if (more > 0) sheet.line(message('record.photosMore', { count: more }))
}
