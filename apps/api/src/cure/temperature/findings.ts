import type { ReadingFinding as Told } from '@clampclock/contracts'
import type { ReadingFinding } from '@clampclock/cure'
import { celsiusToFahrenheit, formatTemperature, formatTemperatureDifference } from '@clampclock/quantities'
import type { Prisma } from '../../generated/prisma/client.ts'

type Unit = 'C' | 'F'

/** Findings as they are stored; null where there are none, so that a good reading takes no room. */
export function storedFindings(findings: readonly ReadingFinding[]): Prisma.InputJsonValue | undefined {
  return findings.length === 0 ? undefined : (findings as unknown as Prisma.InputJsonValue)
}

/** As they were stored: what wrote them is typed, and the database keeps them as they are. */
export function findingsOf(stored: Prisma.JsonValue): readonly ReadingFinding[] {
  return Array.isArray(stored) ? (stored as unknown as readonly ReadingFinding[]) : []
}

export function toldFindings(stored: Prisma.JsonValue, temperatureC: number, unit: Unit): Told[] {
  return findingsOf(stored).map((finding) => ({
    kind: finding.kind,
    message: findingSentence(finding, temperatureC, unit),
  }))
}

/** What makes a reading doubtful, in one sentence that begins with the value. */
export function findingSentence(finding: ReadingFinding, temperatureC: number, unit: Unit): string {
  const degrees = (c: number) => formatTemperature(c, unit)
  const value = degrees(temperatureC)
  switch (finding.kind) {
    case 'outOfRange':
      return `${value} is outside ${degrees(finding.lowC)} to ${degrees(finding.highC)}`
    case 'fahrenheit':
      return `${formatTemperature(temperatureC, 'C')} reads like ${temperatureC.toFixed(1)} °F entered as °C: was ${degrees(finding.meantC)} meant?`
    case 'celsius':
      return `${formatTemperature(temperatureC, 'F')} reads like ${celsiusToFahrenheit(temperatureC).toFixed(1)} °C entered as °F: was ${degrees(finding.meantC)} meant?`
    case 'tooFast': {
      const apart = formatTemperatureDifference(Math.abs(temperatureC - finding.previousC), unit)
      const side = temperatureC > finding.previousC ? 'above' : 'below'
      return `${value} is ${apart} ${side} the last reading (${degrees(finding.previousC)}, ${minutes(finding.minutes)} before): it gets to ${degrees(finding.reachC)} in that time at the most`
    }
    case 'spike':
      return `${value} stands alone: the readings around it are at ${degrees(finding.betweenC)}`
    case 'stuck':
      return `${value} for ${finding.hours} h without a change, while other thermometers moved`
    case 'unchanged':
      return finding.airC === undefined
        ? `${value}, and so ${finding.times} times running in ${minutes(finding.minutes)}: does the thermometer stand still? Read something else with it, and the metal again`
        : `${value} is what it was ${minutes(finding.minutes)} before, though the air was at ${degrees(finding.airC)}: was it measured again?`
    case 'jumped':
      return `${value} is ${formatTemperatureDifference(temperatureC - finding.previousC, unit)} above the last reading that is believed (${degrees(finding.previousC)}): it never rose by more than ${formatTemperatureDifference(finding.mostC, unit)} at once. Compare it with another thermometer`
    case 'apart':
      return `${value} where the bay's thermometer says ${degrees(finding.otherC)}: one of them is wrong. Read the air at the joint again`
    case 'aboveAir':
      return `${value} is above the warmest air that the metal has been in (${degrees(finding.airC)})`
    case 'warmsInColderAir':
      return `${value} is above the last reading (${degrees(finding.previousC)}), though the air was colder (${degrees(finding.airC)})`
    case 'late':
      return `${value} was entered ${minutes(finding.minutes)} after it was read: it can make nothing ready sooner`
    case 'outOfCalibration':
      return `${value} was read by an instrument out of calibration`
    case 'sentTwice':
      return `${value} was entered ${finding.seconds} s apart from the same value: was it measured again?`
    case 'twoValues':
      return `${value} and ${degrees(finding.otherC)} came for the same instant: the colder one is kept`
  }
}

function minutes(count: number): string {
  return count < 90 ? `${Math.round(count)} min` : `${Math.round(count / 60)} h`
}
