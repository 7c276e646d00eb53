import type { BondRecord } from '../../api/types.ts'
import { percentOf } from '../../ui/answers/percent.ts'

type Entry = Pick<BondRecord['entries'][number], 'facts'>

/** What an entry says beyond its kind, from the facts that were written down then. */
export function entryDetail({ facts }: Entry, degrees: (c: number) => string): string {
  const { temperatureC, instrument, conservativeProgress, reason } = facts
  const parts: string[] = []
  if (facts['was'] !== undefined && facts['is'] !== undefined)
    parts.push(`${vehicleOf(facts['was'])} became ${vehicleOf(facts['is'])}`)
  if (typeof temperatureC === 'number') parts.push(degrees(temperatureC))
  if (isInstrument(instrument)) {
    const state = instrument.inCalibration ? '' : ', out of calibration'
    parts.push(`with ${instrument.name} (${instrument.serialNumber}${state})`)
  }
  if (typeof conservativeProgress === 'number') {
    parts.push(`at ${percentOf(conservativeProgress)} % of handling strength, careful estimate`)
  }
  if (typeof reason === 'string' && reason !== '') parts.push(reason)
  return parts.join('; ')
}

/** What tells a car, as an entry keeps it. */
function vehicleOf(told: unknown): string {
  if (typeof told !== 'object' || told === null) return '?'
  const { vehicle, plate, vin } = told as Record<string, unknown>
  return [vehicle, typeof plate === 'string' && `plate ${plate}`, typeof vin === 'string' && `VIN ${vin}`]
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
