import type { RecordEntry } from '@clampclock/contracts'

/** One sentence for an entry of a record, from its facts. */
export function sentenceOf({ kind, by, facts }: RecordEntry, temperature: (c: number) => string): string {
  const text = (name: string) => (typeof facts[name] === 'string' ? facts[name] : '')
  const reason = text('reason') ? `: ${text('reason')}` : ''
  switch (kind) {
    case 'applied':
      return `Applied by ${by}`
    case 'reading':
      return `Panel at ${typeof facts['temperatureC'] === 'number' ? temperature(facts['temperatureC']) : '?'}, read by ${by}${instrumentOf(facts['instrument'])}`
    case 'readingWithdrawn':
      return `Panel reading of ${typeof facts['temperatureC'] === 'number' ? temperature(facts['temperatureC']) : '?'} ${text('quality') === 'replaced' ? 'replaced' : 'withdrawn'} by ${by}${reason}`
    case 'clamped':
      return `Closed and clamped by ${by}`
    case 'released':
      return `Clamps off, by ${by}, ${reached(facts['conservativeProgress'])} on the careful estimate${reason}`
    case 'abandoned':
      return `Abandoned by ${by}${reason}`
    case 'incident':
      return `${INCIDENTS[text('incident')] ?? 'Incident'}, recorded by ${by}${reason}`
    case 'inspection':
      return `Inspected by ${text('inspector')} (${text('method')}): ${text('result')}; recorded by ${by}`
    case 'disposition':
      return `${text('disposition') === 'redone' ? 'To be made again' : 'Inspected and accepted'}, by ${by}${reason}`
    case 'vehicleCorrected':
      return `Vehicle corrected by ${by}: ${identity(facts['was'])} became ${identity(facts['is'])}`
  }
}

const INCIDENTS: Readonly<Record<string, string>> = {
  earlyRelease: 'Released before it was ready',
  clampedAfterWorkTime: 'Clamped after the work time',
  gateOverridden: 'Went on although a gate refused',
  appliedAgainstRefusal: 'Applied although a gate refused',
  leftWithAdhesive: 'Left with adhesive on it',
}

/** What tells a car, as people read it. */
function identity(told: unknown): string {
  const { vehicle, vin, plate } = (told ?? {}) as Record<string, unknown>
  const parts = [
    vehicle,
    typeof plate === 'string' && `plate ${plate}`,
    typeof vin === 'string' && `VIN ${vin}`,
  ]
  return parts.filter(Boolean).join(', ') || '?'
}

function instrumentOf(instrument: unknown): string {
  if (typeof instrument !== 'object' || instrument === null) return ''
  const { name, serialNumber, inCalibration } = instrument as Record<string, unknown>
  return ` with ${String(name)} (${String(serialNumber)}${inCalibration === true ? '' : ', out of calibration'})`
}

function reached(fraction: unknown): string {
  if (typeof fraction !== 'number') return 'at an unknown share of handling strength'
  // Rounded down: 99.7 % must not read as done.
  return fraction >= 1 ? 'past handling strength' : `at ${Math.floor(fraction * 100)} % of handling strength`
}
