import type { BondRecord } from '../../api/types.ts'
import { percentOf } from '../../ui/answers/percent.ts'
import { t } from '../../lib/reader.ts'

type Entry = Pick<BondRecord['entries'][number], 'facts' | 'reason'>

/** What an entry says beyond its kind, from the facts that were written down then. */
export function entryDetail({ facts, reason }: Entry, degrees: (c: number) => string): string {
  const { temperatureC, instrument, conservativeProgress, text, sha256 } = facts
  const parts: string[] = []
  if (facts['was'] !== undefined && facts['is'] !== undefined)
    parts.push(t('bond-record.became', { facts: vehicleOf(facts['was']), facts2: vehicleOf(facts['is']) }))
  if (typeof temperatureC === 'number') parts.push(degrees(temperatureC))
  if (isInstrument(instrument)) {
    const state = instrument.inCalibration ? '' : `, ${t('bond-record.outOfCalibration')}`
    parts.push(t('bond-record.with', { name: instrument.name, serialNumber: instrument.serialNumber, state }))
  }
  if (typeof conservativeProgress === 'number') {
    parts.push(
      t('bond-record.atOfHandlingStrengthCarefulEstimate', {
        conservativeProgress: percentOf(conservativeProgress),
      }),
    )
  }
  if (typeof text === 'string' && text !== '') parts.push(text)
  if (typeof sha256 === 'string') parts.push(t('bond-record.sha256', { start: sha256.slice(0, 12) }))
  if (reason !== null) parts.push(reason)
  return parts.join('; ')
}

/** What tells a car, as an entry keeps it. */
function vehicleOf(told: unknown): string {
  if (typeof told !== 'object' || told === null) return '?'
  const { vehicle, plate, vin } = told as Record<string, unknown>
  return [
    vehicle,
    typeof plate === 'string' && t('bond-record.plate', { plate }),
    typeof vin === 'string' && `VIN ${vin}`,
  ]
    .filter(Boolean)
    .join(', ')
}

interface Named {
  readonly name: string
  readonly serialNumber: string
  readonly inCalibration: boolean
}

function isInstrument(value: unknown): value is Named {
  return typeof value === 'object' && value !== null && 'serialNumber' in value && 'name' in value
}
