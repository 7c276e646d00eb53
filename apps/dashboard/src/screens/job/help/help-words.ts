import type { Help } from '@clampclock/contracts'
import { celsiusToFahrenheit } from '@clampclock/quantities'
import { formatNumber } from '../../../lib/measures.ts'
import { t, together } from '../../../lib/reader.ts'

/** What keeps it from being any warmer. */
export const BECAUSE = {
  get highestCure() {
    return t('job.itsDataSheetCreditsNoHeatAboveThat')
  },
  get serviceRange() {
    return t('job.theProductIsRatedNoHigher')
  },
  get otherProduct() {
    return t('job.anotherProductOnTheVehicleIsRatedNo')
  },
  get vehicle() {
    return t('job.theVehiclesOwnLimit')
  },
  get equipment() {
    return t('job.moreTheHeaterOrLampCannotDo')
  },
  get workTime() {
    return t('job.aJointMayStillBeOpenAndMoreWouldTake')
  },
} as const satisfies Record<Help['limit']['because'], string>

/** Rounded up in the reader's unit: a tenth of a degree less would be too late. */
export function atLeast(c: number, unit: 'C' | 'F'): string {
  const shown = unit === 'C' ? c : celsiusToFahrenheit(c)
  return together(`${formatNumber(Math.ceil(shown * 10 - 1e-6) / 10, 1)} °${unit}`)
}

/** Minutes that one degree of the reader's saves. */
export function savedPerDegree(minutesPerC: number, unit: 'C' | 'F'): string {
  const minutes = unit === 'F' ? minutesPerC / 1.8 : minutesPerC
  return t('job.minForEach', { minutes: minutes < 10 ? formatNumber(minutes, 1) : Math.round(minutes), unit })
}
