import { formatTemperature, formatTemperatureDifference } from '@clampclock/quantities'
import type { BondRecord } from '../../api/types.ts'
import { amountText } from '../../features/bonds/amount-text.ts'
import { formatDate, formatInstant } from '../../lib/instants.ts'
import { READING_SOURCE, SAFETY_CLASS } from '../../lib/words.ts'
import { Facts } from '../../ui/facts.tsx'

type Application = NonNullable<BondRecord['application']>

interface Props {
  readonly application: Application
  readonly unit: 'C' | 'F'
  readonly zone: string
}

/** Who, with what and under which conditions, as known when the adhesive left the nozzle. */
export function ApplicationFacts({ application, unit, zone }: Props) {
  const { procedure, qualification, product, cartridges, prepared, panel, air } = application
  const degrees = (c: number) => formatTemperature(c, unit)
  return (
    <Facts
      facts={[
        ['Vehicle', vehicleOf(application)],
        ['Safety class', SAFETY_CLASS[application.safetyClass]],
        [
          'Procedure',
          procedure === null
            ? 'None'
            : `${procedure.document}, revision ${procedure.revision}, looked up ${formatDate(procedure.lookedUpOn)}`,
        ],
        ['Applied by', application.by],
        [
          'Qualification',
          qualification === null
            ? 'None that covers the class'
            : `${qualification.safetyClass}, ${qualification.evidence}, ${formatDate(qualification.issuedOn)} to ${formatDate(qualification.validUntil)}`,
        ],
        [
          'Product',
          `${product.name}, sheet ${product.sheetRevision} of ${formatDate(product.sheetIssuedOn)}${
            product.sheetApproval
              ? `, approved by ${product.sheetApproval.by} (${formatInstant(product.sheetApproval.at, zone, 'full')})`
              : ''
          }`,
        ],
        ...cartridges.map(
          ({ code, lotNumber, amountMl, effectiveExpiryAt, expiryReason }) =>
            [
              `Cartridge ${code}`,
              `${Math.round(amountMl)} mL of lot ${lotNumber}; good until ${formatInstant(effectiveExpiryAt, zone, 'full')} (${expiryReason})`,
            ] as const,
        ),
        ['Amount', amountOf(application)],
        ['Dispenser', application.dispenser],
        ['Bay', application.bay],
        [
          'Preparation, by their own word',
          `Surfaces ${word(prepared.surfaces)}, dry fit ${word(prepared.dryFit)}, skim coat ${word(prepared.skimCoat)}`,
        ],
        [
          'Metal',
          `${degrees(panel.temperatureC)} ± ${formatTemperatureDifference(panel.accuracyC, unit)}, ${READING_SOURCE[panel.source]}${instrumentOf(panel.instrument)}`,
        ],
        [
          'Air',
          `${degrees(air.temperatureC)}, ${air.relativeHumidityPercent} % relative humidity, dew point ${degrees(air.dewPointC)}${instrumentOf(air.hygrometer)}`,
        ],
      ]}
    />
  )
}

function amountOf({ amount, cartridges, by }: Application): string {
  const amountMl = cartridges.reduce((sum, each) => sum + each.amountMl, 0)
  return amountText(
    amountMl,
    amount ? { by, neededMl: amount.neededMl, reason: amount.shortBecause } : undefined,
  )
}

/** What told the car then; later corrections stand among the entries. */
function vehicleOf({ vehicle, plate, vin, repairOrderNumber }: Application): string {
  const told = [vehicle, plate && `plate ${plate}`, vin && `VIN ${vin}`, `repair order ${repairOrderNumber}`]
  return told.filter(Boolean).join('; ')
}

const word = (done: boolean) => (done ? 'done' : 'not done')

function instrumentOf(instrument: Application['panel']['instrument']): string {
  if (instrument === null) return ''
  const { name, serialNumber, calibratedUntil, inCalibration } = instrument
  const until =
    calibratedUntil === null ? 'never calibrated' : `calibrated until ${formatDate(calibratedUntil)}`
  return `; ${name} ${serialNumber}, ${until}${inCalibration ? '' : ', out of calibration'}`
}
