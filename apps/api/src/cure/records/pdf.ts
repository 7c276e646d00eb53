import type { BondRecord, Shop } from '@clampclock/contracts'
import { message, type Reader } from '@clampclock/messages'
import { drawCurve } from './pdf-curve.ts'
import { writeApplication } from './pdf-application.ts'
import { writePhotos, type Pictures } from './pdf-photos.ts'
import { MARGIN, printable, renderSheet, type Sheet } from '../../foundation/documents/pdf-sheet.ts'
import { sentenceOf } from './sentences.ts'

/** The record on paper: the standard fonts, everything that the page shows, in the words of whoever asked for it. */
export function renderRecord(
  record: BondRecord,
  pictures: Pictures,
  shop: Shop,
  reader: Reader,
  now: Date,
): Promise<Uint8Array> {
  const { repairOrderNumber: order, jointName: joint, attempt } = record.bond
  return renderSheet(message('record.title', { order, joint, attempt }), shop, reader, now, (sheet) =>
    write(sheet, record, pictures, now),
  )
}

function write(sheet: Sheet, record: BondRecord, pictures: Pictures, now: Date): void {
  const { document } = sheet
  const { bond, application } = record
  const { repairOrderNumber: order, jointName: joint, attempt } = bond
  document
    .font('Helvetica-Bold')
    .fontSize(18)
    .text(printable(sheet.say(message('record.bondRecord'))))
  document.font('Helvetica').fontSize(10)
  sheet.line(message('record.subtitle', { order, joint, attempt, shop: sheet.shopName }))
  document.fontSize(9)
  sheet.line(message('record.clock', { zone: sheet.zone }))

  sheet.heading(message('record.jointAndProcedure'))
  sheet.row(message('record.vehicle'), application?.vehicle ?? bond.vehicle)
  if (application?.plate) sheet.row(message('record.plate'), application.plate)
  if (application?.vin) sheet.row(message('record.vin'), application.vin)
  for (const entry of record.entries.filter(({ kind }) => kind === 'vehicleCorrected'))
    sheet.row(
      message('record.correctedLater'),
      message('record.correctedAt', { at: sheet.at(entry.at), what: { message: sentenceOf(entry) } }),
    )
  const { state } = bond
  sheet.row(
    message('record.state'),
    bond.abandonReason
      ? message('record.stateBecause', { state, reason: bond.abandonReason })
      : message('record.stateIs', { state }),
  )
  writeProof(sheet, record)
  if (application) writeApplication(sheet, application, bond.appliedAt)
  else sheet.row(message('record.application'), message('record.beforeRecords'))

  sheet.heading(message('record.temperatureAndProgress'))
  drawCurve(sheet, record.curve)

  sheet.heading(message('record.whatHappened'))
  for (const entry of record.entries)
    sheet.row(
      message('record.entry', { at: sheet.at(entry.at), sequence: entry.sequence }),
      sentenceOf(entry),
    )
  writePhotos(sheet, record.entries, pictures)
  writeChain(sheet, record)
  sheet.heading(message('record.cautions'))
  for (const caution of record.cautions) sheet.line(caution)
  numberPages(sheet, bond.id, now)
}

/** Under which procedure it was made, when, and what entitled whoever did it. */
function writeProof(sheet: Sheet, { bond, application }: BondRecord): void {
  if (!application) return
  const { procedure, qualification } = application
  sheet.row(message('record.safetyClass'), application.safetyClass)
  sheet.row(
    message('record.procedure'),
    procedure
      ? message('record.procedureIs', {
          document: procedure.document,
          revision: procedure.revision,
          on: { day: procedure.lookedUpOn },
        })
      : message('record.noProcedure'),
  )
  sheet.row(
    message('record.applied'),
    message('record.appliedBy', { at: sheet.at(bond.appliedAt), by: bond.appliedBy }),
  )
  sheet.row(
    message('record.qualification'),
    qualification
      ? message('record.qualificationIs', {
          class: qualification.safetyClass,
          evidence: qualification.evidence,
          from: { day: qualification.issuedOn },
          until: { day: qualification.validUntil },
        })
      : message('record.noQualification'),
  )
}

function writeChain(sheet: Sheet, { chain, entries }: BondRecord): void {
  sheet.heading(message('record.chain'))
  sheet.row(
    message('record.state'),
    chain.intact ? message('record.unbroken') : (chain.fault ?? message('record.broken')),
  )
  for (const { sequence, hash } of entries) sheet.row(message('record.number', { sequence }), hash)
  if (!chain.head) return
  sheet.row(message('record.latest', { sequence: chain.head.sequence }), chain.head.hash)
  sheet.line(message('record.latestHelp'))
}

function numberPages(sheet: Sheet, id: string, now: Date): void {
  const { document } = sheet
  const { start, count: pages } = document.bufferedPageRange()
  for (let index = start; index < start + pages; index += 1) {
    document.switchToPage(index)
    // Below the margin, where text would otherwise begin a new page.
    document.page.margins.bottom = 0
    const footer = message('record.footer', { id, at: sheet.at(now), page: index - start + 1, pages })
    document
      .fontSize(7)
      .fillColor('#555')
      .text(printable(sheet.say(footer)), MARGIN, document.page.height - 30, { lineBreak: false })
  }
}
