import { formatTemperature, formatTemperatureDifference, formatVolume } from '../../lib/measures.ts'
import type { BondRecord } from '../../api/types.ts'
import { amountText } from '../../features/bonds/amount-text.ts'
import { formatDate, formatInstant } from '../../lib/instants.ts'
import { READING_SOURCE, SAFETY_CLASS } from '../../lib/words.ts'
import { Facts } from '../../ui/facts.tsx'
import { t } from '../../lib/reader.ts'

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
        [t('bond-record.vehicle'), vehicleOf(application)],
        [t('bond-record.safetyClass'), SAFETY_CLASS[application.safetyClass]],
        [
          t('bond-record.procedure'),
          procedure === null
            ? t('bond-record.none')
            : t('bond-record.revisionLookedUp', {
                document: procedure.document,
                revision: procedure.revision,
                lookedUpOn: formatDate(procedure.lookedUpOn),
              }),
        ],
        [t('bond-record.appliedBy'), application.by],
        [
          t('bond-record.qualification'),
          qualification === null
            ? t('bond-record.noneThatCoversTheClass')
            : t('bond-record.qualificationOf', {
                safetyClass: qualification.safetyClass,
                evidence: qualification.evidence,
                from: formatDate(qualification.issuedOn),
                until: formatDate(qualification.validUntil),
              }),
        ],
        [
          t('bond-record.product'),
          `${t('bond-record.sheetOf', {
            name: product.name,
            sheetRevision: product.sheetRevision,
            sheetIssuedOn: formatDate(product.sheetIssuedOn),
          })}${
            product.sheetApproval
              ? `, ${t('bond-record.approvedBy', {
                  by: product.sheetApproval.by,
                  at: formatInstant(product.sheetApproval.at, zone, 'full'),
                })}`
              : ''
          }`,
        ],
        ...cartridges.map(
          ({ code, lotNumber, amountMl, effectiveExpiryAt, expiryReason }) =>
            [
              t('bond-record.cartridge', { code }),
              t('bond-record.ofLotGoodUntil', {
                amount: formatVolume(amountMl),
                lotNumber,
                effectiveExpiryAt: formatInstant(effectiveExpiryAt, zone, 'full'),
                expiryReason,
              }),
            ] as const,
        ),
        [t('bond-record.amount'), amountOf(application)],
        [t('bond-record.dispenser'), application.dispenser],
        [t('bond-record.bay'), application.bay],
        [
          t('bond-record.preparationByTheirOwnWord'),
          t('bond-record.surfacesDryFitSkimCoat', {
            surfaces: word(prepared.surfaces),
            dryFit: word(prepared.dryFit),
            skimCoat: word(prepared.skimCoat),
          }),
        ],
        [t('bond-record.preparationStepByStep'), stepsOf(application)],
        [
          t('bond-record.metal'),
          `${degrees(panel.temperatureC)} ± ${formatTemperatureDifference(panel.accuracyC, unit)}, ${READING_SOURCE[panel.source]}${instrumentOf(panel.instrument)}`,
        ],
        [
          t('bond-record.air'),
          `${t('bond-record.relativeHumidityDewPoint', {
            temperatureC: degrees(air.temperatureC),
            relativeHumidityPercent: air.relativeHumidityPercent,
            dewPointC: degrees(air.dewPointC),
          })}${instrumentOf(air.hygrometer)}`,
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
  const told = [
    vehicle,
    plate && t('bond-record.plate', { plate }),
    vin && `VIN ${vin}`,
    t('bond-record.repairOrder', { repairOrderNumber }),
  ]
  return told.filter(Boolean).join('; ')
}

function stepsOf({ preparation }: Application): string | null {
  const steps = preparation ?? []
  return steps.length === 0
    ? null
    : steps.map((step) => t('bond-record.preparationStep', { step })).join(', ')
}

const word = (done: boolean) => (done ? t('bond-record.done') : t('bond-record.notDone'))

function instrumentOf(instrument: Application['panel']['instrument']): string {
  if (instrument === null) return ''
  const { name, serialNumber, calibratedUntil, inCalibration } = instrument
  const until =
    calibratedUntil === null
      ? t('bond-record.neverCalibrated')
      : t('bond-record.calibratedUntil', { calibratedUntil: formatDate(calibratedUntil) })
  return `; ${name} ${serialNumber}, ${until}${inCalibration ? '' : `, ${t('bond-record.outOfCalibration')}`}`
}
