import type { BondRecord, Shop } from '@clampclock/contracts'
import { wholeMl } from '@clampclock/quantities'
import { drawCurve } from './pdf-curve.ts'
import { MARGIN, printable, renderSheet, type Sheet } from '../../foundation/documents/pdf-sheet.ts'
import { sentenceOf } from './sentences.ts'

/** The record on paper: A4, the standard fonts, everything that the page shows. */
export function renderRecord(record: BondRecord, shop: Shop, now: Date): Promise<Uint8Array> {
  return renderSheet(`Bond record, ${titleOf(record)}`, shop, now, (sheet) => write(sheet, record, now))
}

function titleOf({ bond }: BondRecord): string {
  return `${bond.repairOrderNumber}, ${bond.jointName}, attempt ${bond.attempt}`
}

function write(sheet: Sheet, record: BondRecord, now: Date): void {
  const { document } = sheet
  const { bond, application } = record
  document.font('Helvetica-Bold').fontSize(18).text('Bond record')
  document
    .font('Helvetica')
    .fontSize(10)
    .text(printable(`${titleOf(record)} · ${sheet.shopName}`))
  document.fontSize(9)

  sheet.heading('Joint and procedure')
  sheet.row('Vehicle', application?.vehicle ?? bond.vehicle)
  if (application?.plate) sheet.row('Plate', application.plate)
  if (application?.vin) sheet.row('VIN', application.vin)
  for (const entry of record.entries.filter(({ kind }) => kind === 'vehicleCorrected'))
    sheet.row(
      'Corrected later',
      `${sheet.instant(entry.at)}: ${sentenceOf(entry, (c) => sheet.temperature(c))}`,
    )
  sheet.row('State', `${bond.state}${bond.abandonReason ? `: ${bond.abandonReason}` : ''}`)
  if (application) {
    const { procedure, qualification } = application
    sheet.row('Safety class', application.safetyClass)
    sheet.row(
      'Procedure',
      procedure
        ? `${procedure.document}, revision ${procedure.revision}, looked up on ${procedure.lookedUpOn}`
        : 'none on record',
    )
    sheet.row('Applied', `${sheet.instant(bond.appliedAt)} by ${bond.appliedBy}`)
    sheet.row(
      'Qualification',
      qualification
        ? `${qualification.safetyClass}, ${qualification.evidence}, ${qualification.issuedOn} to ${qualification.validUntil}`
        : 'none on record that covers the class',
    )
    writeApplication(sheet, application, bond.appliedAt)
  } else sheet.row('Application', 'Made before records were chained: see the bond')

  sheet.heading('Temperature and progress')
  drawCurve(sheet, record.curve)

  sheet.heading('What happened, as it was written down then')
  for (const entry of record.entries) {
    sheet.row(
      `${sheet.instant(entry.at)}  #${entry.sequence}`,
      sentenceOf(entry, (c) => sheet.temperature(c)),
    )
  }
  sheet.heading('Chain of records')
  sheet.row('State', record.chain.intact ? 'unbroken over this bond' : (record.chain.fault ?? 'broken'))
  for (const { sequence, hash } of record.entries) sheet.row(`#${sequence}`, hash)
  const { head } = record.chain
  if (head) {
    sheet.row(`Latest, #${head.sequence}`, head.hash)
    sheet.line(
      'The latest entry of the shop when this was printed. npm run records:verify -- --head and this hash shows whether any entry up to it was changed, cut off or written anew since.',
    )
  }
  sheet.heading('Cautions')
  for (const caution of record.cautions) sheet.line(caution)
  numberPages(sheet, bond.id, now)
}

function writeApplication(
  sheet: Sheet,
  application: NonNullable<BondRecord['application']>,
  appliedAt: Date,
): void {
  const { product, cartridges, prepared, panel, air } = application
  sheet.heading('Material')
  const approval = product.sheetApproval
    ? `; approved by ${product.sheetApproval.by}, ${sheet.instant(product.sheetApproval.at)}`
    : ''
  sheet.row(
    'Product',
    `${product.name}, data sheet ${product.sheetRevision} of ${product.sheetIssuedOn}${approval}`,
  )
  for (const { code, lotNumber, amountMl, effectiveExpiryAt, expiryReason } of cartridges) {
    sheet.row(
      `Cartridge ${code}`,
      `lot ${lotNumber}, ${amountMl.toFixed(1)} mL; counted until ${sheet.instant(effectiveExpiryAt)}. ${expiryReason}`,
    )
  }
  sheet.row('Amount', amountText(application))
  sheet.row('Dispenser', application.dispenser)
  sheet.heading('Conditions and preparation')
  sheet.row('Bay', application.bay ?? 'not said')
  const source = panel.source === 'metalProbe' ? 'probe' : 'infrared'
  sheet.row('Panel', `${sheet.temperature(panel.temperatureC)} ${sheet.accuracy(panel.accuracyC)}, ${source}`)
  sheet.row('Thermometer', instrumentText(panel.instrument))
  sheet.row(
    'Air',
    `${sheet.temperature(air.temperatureC)}, ${air.relativeHumidityPercent} %; dew point ${sheet.temperature(air.dewPointC)}`,
  )
  sheet.row('Hygrometer', instrumentText(air.hygrometer))
  const steps = [
    ['Both faces prepared', prepared.surfaces],
    ['Dry fit done', prepared.dryFit],
    ['Skim coat', prepared.skimCoat],
  ] as const
  for (const [step, isDone] of steps) {
    const word = isDone ? 'done' : 'NOT done'
    sheet.row(step, `${word}, by the word of ${application.by}, ${sheet.instant(appliedAt)}`)
  }
}

/** From all the cartridges, held against what the joint needed then. */
function amountText({ amount, cartridges, by }: NonNullable<BondRecord['application']>): string {
  const recorded = `${cartridges.reduce((sum, each) => sum + each.amountMl, 0).toFixed(1)} mL`
  if (!amount) return recorded
  const ofNeed = `${recorded}; the joint needs ${wholeMl(amount.neededMl)} mL`
  return amount.shortBecause === null
    ? ofNeed
    : `${ofNeed}. Less than needed, confirmed by ${by} because: ${amount.shortBecause}`
}

function instrumentText(instrument: NonNullable<BondRecord['application']>['panel']['instrument']): string {
  if (!instrument) return 'not named'
  const { name, serialNumber, calibratedUntil, inCalibration } = instrument
  const state = inCalibration ? 'in calibration' : 'OUT OF CALIBRATION'
  return `${name}, serial ${serialNumber}, ${state}${calibratedUntil ? `, until ${calibratedUntil}` : ''}`
}

function numberPages(sheet: Sheet, bondId: string, now: Date): void {
  const { document } = sheet
  const { start, count } = document.bufferedPageRange()
  for (let page = start; page < start + count; page += 1) {
    document.switchToPage(page)
    // Below the margin, where text would otherwise begin a new page.
    document.page.margins.bottom = 0
    const text = `Bond ${bondId} · printed ${sheet.instant(now)} · page ${page - start + 1} of ${count}`
    document
      .fontSize(7)
      .fillColor('#555')
      .text(text, MARGIN, document.page.height - 30, { lineBreak: false })
  }
}
