import type { BakeProgram, ROUTES } from '@clampclock/contracts'
import { formatTemperature } from '../../lib/measures.ts'
import type { InputOf } from '../../api/client.ts'
import { t } from '../../lib/reader.ts'

/** What is asked of the oven check. */
export type OvenQuestion = InputOf<typeof ROUTES.checkOven>['body']

/** A bake program as a form holds it: undefined where nothing is typed. */
export type ProgramValues = { [Field in keyof BakeProgram]-?: number | undefined }

/**
 * To begin typing from, not to bake by. Metal at 60 degC for 30 min is common practice, no source; the air a bit
 * above, so that its cold side still brings the metal there.
 */
export const USUAL_PROGRAM: ProgramValues = {
  setPointC: 70,
  airToleranceC: 3,
  metalTargetC: 60,
  dwellMinutes: 30,
  rampCPerMinute: 5,
  airStartC: 20,
  coolAirC: 20,
  touchC: 40,
}

/** As the service takes it. What is missing goes as no number: the service names the field. */
export function programOf({ rampCPerMinute, ...values }: ProgramValues): BakeProgram {
  const figure = (name: keyof typeof values) => values[name] ?? Number.NaN
  return {
    airStartC: figure('airStartC'),
    setPointC: figure('setPointC'),
    airToleranceC: figure('airToleranceC'),
    metalTargetC: figure('metalTargetC'),
    dwellMinutes: figure('dwellMinutes'),
    coolAirC: figure('coolAirC'),
    touchC: figure('touchC'),
    ...(rampCPerMinute === undefined ? {} : { rampCPerMinute }),
  }
}

/** In a few words: what tells one program from another. */
export function programWords(
  { setPointC, metalTargetC, dwellMinutes }: Pick<BakeProgram, 'setPointC' | 'metalTargetC' | 'dwellMinutes'>,
  unit: 'C' | 'F',
): string {
  const degrees = (c: number) => formatTemperature(c, unit, 0)
  return t('features.airMetalForMin', {
    setPointC: degrees(setPointC),
    metalTargetC: degrees(metalTargetC),
    dwellMinutes,
  })
}

/** The end of a booking that lasts as long as the bake may take, in whole minutes. */
export function bakeEnd(startsAt: string, windowMinutes: number): string {
  return new Date(Date.parse(startsAt) + Math.ceil(windowMinutes) * 60_000).toISOString()
}
