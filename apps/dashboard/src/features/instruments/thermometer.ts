import { formatTemperatureDifference } from '../../lib/measures.ts'
import type { Instrument } from '../../api/types.ts'
import { formatDate } from '../../lib/instants.ts'
import { t } from '../../lib/reader.ts'

/** What took a panel's temperature: a thermometer of the shop's register, or any other of its kind. */
export interface Thermometer {
  readonly source: 'metalProbe' | 'infrared'
  /** Empty: none of the register. */
  readonly instrumentId: string
  readonly accuracyC: number | undefined
}

/** Ascribed to a thermometer that nobody has on record, plus or minus, degC; the form says so and it can be changed. */
const UNKNOWN_ACCURACY_C = 1

export const UNREGISTERED: Thermometer = {
  source: 'metalProbe',
  instrumentId: '',
  accuracyC: UNKNOWN_ACCURACY_C,
}

export const UNREGISTERED_CHOICES = [
  {
    value: 'metalProbe',
    get label() {
      return t('features.metalProbe')
    },
  },
  {
    value: 'infrared',
    get label() {
      return t('features.infrared')
    },
  },
] as const

/** Those that can be named for a panel reading: in use, and no hygrometer. In calibration first. */
export function thermometersOf(instruments: readonly Instrument[]): readonly Instrument[] {
  return instruments
    .filter(({ kind, active }) => active && kind !== 'hygrometer')
    .sort((a, b) => Number(b.inCalibration) - Number(a.inCalibration) || a.name.localeCompare(b.name))
}

export function hygrometersOf(instruments: readonly Instrument[]): readonly Instrument[] {
  return instruments.filter(({ kind, active }) => active && kind === 'hygrometer')
}

/** Name, number and accuracy; one that is out of calibration says so, since it can be chosen all the same. */
export function instrumentLabel(instrument: Instrument, unit: 'C' | 'F'): string {
  const { name, serialNumber, accuracyC, accuracyPercent } = instrument
  const accuracy =
    accuracyC === null ? `± ${accuracyPercent} %` : `± ${formatTemperatureDifference(accuracyC, unit)}`
  return [`${name} ${serialNumber}, ${accuracy}`, calibrationFault(instrument)].filter(Boolean).join(', ')
}

/** Undefined for one that is in calibration. */
export function calibrationFault({ inCalibration, calibratedUntil }: Instrument): string | undefined {
  if (inCalibration) return undefined
  return calibratedUntil === null
    ? t('features.neverCalibrated')
    : t('features.outOfCalibrationSince', { calibratedUntil: formatDate(calibratedUntil) })
}

/** The value that a select of thermometers has: an instrument's id, or the kind of one that is not on record. */
export function valueOf({ instrumentId, source }: Thermometer): string {
  return instrumentId === '' ? source : instrumentId
}

/** What choosing a value means; the accuracy that somebody typed stays while none of the register is named. */
export function thermometerOf(
  value: string,
  instruments: readonly Instrument[],
  before: Thermometer,
): Thermometer {
  const named = instruments.find(({ id }) => id === value)
  if (named === undefined || named.kind === 'hygrometer') {
    const source = value === 'infrared' ? 'infrared' : 'metalProbe'
    const accuracyC = before.instrumentId === '' ? before.accuracyC : UNKNOWN_ACCURACY_C
    return { source, instrumentId: '', accuracyC }
  }
  return { source: named.kind, instrumentId: named.id, accuracyC: named.accuracyC ?? UNKNOWN_ACCURACY_C }
}
