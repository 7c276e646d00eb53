import { param } from '../../foundation/words/params.ts'
import type { RecordedApplication } from '@clampclock/contracts'
import { message, type Message } from '@clampclock/messages'
import type { Sheet } from '../../foundation/documents/pdf-sheet.ts'

type Instrument = RecordedApplication['panel']['instrument']

/** What went on, and under which conditions, as it was written down then. */
export function writeApplication(sheet: Sheet, application: RecordedApplication, appliedAt: Date): void {
  writeMaterial(sheet, application)
  const { prepared, panel, air, by } = application
  sheet.heading(message('record.conditions'))
  sheet.row(message('record.bay'), application.bay ?? message('record.notSaid'))
  sheet.row(
    message('record.panel'),
    message('record.panelIs', {
      temperature: { celsius: panel.temperatureC },
      accuracy: { celsiusDifference: panel.accuracyC },
      source: panel.source,
    }),
  )
  sheet.row(message('record.thermometer'), instrumentText(panel.instrument))
  sheet.row(
    message('record.air'),
    message('record.airIs', {
      temperature: { celsius: air.temperatureC },
      humidity: air.relativeHumidityPercent,
      dewPoint: { celsius: air.dewPointC },
    }),
  )
  sheet.row(message('record.hygrometer'), instrumentText(air.hygrometer))
  for (const step of ['surfaces', 'dryFit', 'skimCoat'] as const)
    sheet.row(
      message(`record.${step}`),
      message(prepared[step] ? 'record.stepDone' : 'record.stepNotDone', { by, at: sheet.at(appliedAt) }),
    )
  const steps = application.preparation
  if (steps !== null && steps.length > 0)
    sheet.row(
      message('record.preparation'),
      message('reason.several', {
        all: {
          list: steps.map((step) => ({ message: message('record.preparationStep', { step }) })),
          join: 'plain',
        },
      }),
    )
}

function writeMaterial(sheet: Sheet, application: RecordedApplication): void {
  const { product, cartridges } = application
  sheet.heading(message('record.material'))
  const facts = {
    product: product.name,
    revision: product.sheetRevision,
    issued: { day: product.sheetIssuedOn },
  }
  const approval = product.sheetApproval
  sheet.row(
    message('record.product'),
    approval
      ? message('record.productApproved', { ...facts, by: approval.by, at: sheet.at(approval.at) })
      : message('record.productIs', facts),
  )
  for (const { code, lotNumber, amountMl, effectiveExpiryAt, expiryReason } of cartridges)
    sheet.row(
      message('record.cartridge', { code }),
      message('record.cartridgeIs', {
        lot: lotNumber,
        amount: { millilitres: amountMl, digits: 1 },
        until: sheet.at(effectiveExpiryAt),
        reason: param(expiryReason),
      }),
    )
  sheet.row(message('record.amount'), amountText(application))
  sheet.row(message('record.dispenser'), application.dispenser)
}

/** From all the cartridges, held against what the joint needed then. */
function amountText({ amount: need, cartridges, by }: RecordedApplication): Message {
  const used = cartridges.reduce((sum, each) => sum + each.amountMl, 0)
  const amount = { millilitres: used, digits: 1 }
  if (!need) return message('record.amountAlone', { amount })
  const what = { amount, needed: { millilitres: need.neededMl, round: 'up' } } as const
  return need.shortBecause === null
    ? message('record.amountIs', what)
    : message('record.amountShort', { ...what, by, reason: need.shortBecause })
}

function instrumentText(instrument: Instrument): Message {
  if (!instrument) return message('record.notNamed')
  const { name, serialNumber, calibratedUntil, inCalibration } = instrument
  const what = { name, serial: serialNumber, state: inCalibration ? 'in' : 'out' }
  return calibratedUntil
    ? message('record.instrumentUntil', { ...what, until: { day: calibratedUntil } })
    : message('record.instrument', what)
}
