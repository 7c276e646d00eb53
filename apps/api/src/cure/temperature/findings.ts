import type { ReadingFinding as Told } from '@clampclock/contracts'
import type { ReadingFinding } from '@clampclock/cure'
import { message, type Message } from '@clampclock/messages'
import { celsiusToFahrenheit, fahrenheitToCelsius } from '@clampclock/quantities'
import type { Prisma } from '../../generated/prisma/client.ts'
import { apart, degrees } from '../../foundation/words/params.ts'

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

/** Whether it is put as a question. */
export function asks(finding: ReadingFinding): boolean {
  return ['fahrenheit', 'celsius', 'unchanged', 'sentTwice'].includes(finding.kind)
}

/** What makes a reading doubtful, in one sentence that begins with the value. */
export function findingSentence(finding: ReadingFinding, temperatureC: number, unit: Unit): Message {
  const value = degrees(temperatureC, unit)
  const away = (c: number) => apart(c, unit)
  switch (finding.kind) {
    case 'outOfRange':
      return message('finding.outOfRange', {
        value,
        low: degrees(finding.lowC, unit),
        high: degrees(finding.highC, unit),
      })
    case 'fahrenheit':
      return message('finding.fahrenheit', {
        value: { celsius: temperatureC, unit: 'C' },
        typed: { celsius: fahrenheitToCelsius(temperatureC), unit: 'F' },
        meant: degrees(finding.meantC, unit),
      })
    case 'celsius':
      return message('finding.celsius', {
        value: { celsius: temperatureC, unit: 'F' },
        typed: { celsius: celsiusToFahrenheit(temperatureC), unit: 'C' },
        meant: degrees(finding.meantC, unit),
      })
    case 'tooFast':
      return message('finding.tooFast', {
        value,
        apart: away(Math.abs(temperatureC - finding.previousC)),
        side: temperatureC > finding.previousC ? 'above' : 'below',
        previous: degrees(finding.previousC, unit),
        before: { minutes: finding.minutes, about: true },
        reach: degrees(finding.reachC, unit),
      })
    case 'spike':
      return message('finding.spike', { value, between: degrees(finding.betweenC, unit) })
    case 'stuck':
      return message('finding.stuck', { value, hours: finding.hours })
    case 'unchanged':
      return finding.airC === undefined
        ? message('finding.standsStill', {
            value,
            times: finding.times ?? 2,
            within: { minutes: finding.minutes, about: true },
          })
        : message('finding.unchanged', {
            value,
            before: { minutes: finding.minutes, about: true },
            air: degrees(finding.airC, unit),
          })
    case 'jumped':
      return message('finding.jumped', {
        value,
        apart: away(temperatureC - finding.previousC),
        previous: degrees(finding.previousC, unit),
        most: away(finding.mostC),
      })
    case 'apart':
      return message('finding.apart', { value, other: degrees(finding.otherC, unit) })
    case 'aboveAir':
      return message('finding.aboveAir', { value, air: degrees(finding.airC, unit) })
    case 'warmsInColderAir':
      return message('finding.warmsInColderAir', {
        value,
        previous: degrees(finding.previousC, unit),
        air: degrees(finding.airC, unit),
      })
    case 'late':
      return message('finding.late', { value, after: { minutes: finding.minutes, about: true } })
    case 'outOfCalibration':
      return message('finding.outOfCalibration', { value })
    case 'sentTwice':
      return message('finding.sentTwice', { value, seconds: finding.seconds })
    case 'twoValues':
      return message('finding.twoValues', { value, other: degrees(finding.otherC, unit) })
  }
}
