import { message } from '@clampclock/messages'
import { createHash } from 'node:crypto'
import type { BodyOf, productRoutes } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, notFound, wrongState } from '../../foundation/problems/problem-error.ts'

const MOST_PDF_BYTES = 5 * 1024 * 1024
/** Of one revision: a wrong one is followed by the right one, and stays. */
const MOST_DOCUMENTS = 10

interface Pdf {
  readonly name: string
  readonly pdf: Uint8Array<ArrayBuffer>
  readonly sha256: string
}

/**
 * The maker's own document as it was sent. What a file is called says nothing of what it is: a PDF begins with its header
 * and ends with its marker (ISO 32000-2, 7.5.2 and 7.5.5; the marker within the last 1024 bytes).
 *
 * @throws {ProblemError} `invalid-request` for what is too large, cut short, or no PDF.
 */
export function toPdf({ name, base64 }: BodyOf<typeof productRoutes.addSheetDocument>): Pdf {
  const field = 'body.base64'
  const pdf = new Uint8Array(Buffer.from(base64, 'base64'))
  if (pdf.length > MOST_PDF_BYTES)
    throw invalidField(field, message('setup-problem.pdfTooLarge'), message('setup-problem.pdfPagesFix'))
  const text = (from: number, to?: number) => Buffer.from(pdf.subarray(from, to)).toString('latin1')
  if (!text(0, 5).startsWith('%PDF-'))
    throw invalidField(field, message('setup-problem.noPdf'), message('setup-problem.sendPdfFix'))
  if (!text(-1024).includes('%%EOF'))
    throw invalidField(field, message('setup-problem.pdfCut'), message('setup-problem.pdfAgainFix'))
  return { name, pdf, sha256: createHash('sha256').update(pdf).digest('hex') }
}

export async function keepDocument(
  tx: Tx,
  actor: Actor,
  sheet: { readonly id: string; readonly organizationId: string },
  document: Pdf,
  now: Date,
): Promise<void> {
  const kept = await tx.productSheetDocument.count({ where: { sheetId: sheet.id } })
  if (kept >= MOST_DOCUMENTS)
    throw wrongState(message('setup-problem.documentsMost', { most: MOST_DOCUMENTS }))
  await tx.productSheetDocument.create({
    data: {
      organizationId: sheet.organizationId,
      sheetId: sheet.id,
      ...document,
      bytes: document.pdf.length,
      recordedAt: now,
      recordedByName: actor.name,
    },
    select: { id: true },
  })
}

export async function documentOf(
  tx: Tx,
  { productId, sheetId, documentId }: Record<'productId' | 'sheetId' | 'documentId', string>,
): Promise<Uint8Array> {
  const where = { id: documentId, sheetId, sheet: { productId } }
  const row = await tx.productSheetDocument.findFirst({ where, select: { pdf: true } })
  if (!row) throw notFound('document', documentId)
  return row.pdf
}
