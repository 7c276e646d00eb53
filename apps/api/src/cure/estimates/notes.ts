import type { EstimateNote } from '@clampclock/cure'
import { message, type Message } from '@clampclock/messages'
import {
  apart as difference,
  degrees as temperature,
  onClock,
  readyOnClock,
} from '../../foundation/words/params.ts'

/** What a reader must know beside the figures, in one sentence each, in the shop's own time. */
export function noteSentence(note: EstimateNote, timeZone: string, unit: 'C' | 'F'): Message {
  const clock = (ms: number) => onClock(ms, timeZone)
  const degrees = (c: number) => temperature(c, unit)
  const apart = (c: number) => difference(c, unit)
  switch (note.kind) {
    case 'gapBridged':
      return message('note.gapBridged', {
        from: clock(note.fromMs),
        to: clock(note.toMs),
        margin: apart(note.marginC),
      })
    case 'staleTemperature':
      return message('note.staleTemperature', { from: clock(note.fromMs), margin: apart(note.marginC) })
    case 'toldLate':
      return message('note.toldLate', {
        applied: clock(note.appliedAtMs),
        countsFrom: clock(note.countsFromMs),
      })
    case 'noTemperature':
    case 'noForecast':
    case 'panelLagUnknown':
      return message(`note.${note.kind}`)
    case 'forecastEnds':
      return message('note.forecastEnds', {
        to: clock(note.toMs),
        milestones: {
          list: note.milestones.map((milestone) => ({ message: message('note.milestone', { milestone }) })),
        },
      })
    case 'readingsAfterNow':
      return message('note.readingsAfterNow', { count: note.count })
    case 'suspectReadings':
      return message('note.suspectReadings', { count: note.count })
    case 'metalNotFollowingAir':
      return message('note.metalNotFollowingAir', {
        temperature: degrees(note.temperatureC),
        at: clock(note.atMs),
      })
    case 'airAtJointApart':
      return message('note.airAtJointApart', {
        joint: degrees(note.jointC),
        at: clock(note.atMs),
        bay: degrees(note.bayC),
        warmer: note.bayC > note.jointC ? 'bay' : 'joint',
        apart: apart(Math.abs(note.bayC - note.jointC)),
      })
    case 'metalUnproven':
      return note.ifProvenAtMs === undefined
        ? message('note.metalUnproven')
        : message('note.metalUnprovenReady', { ready: readyOnClock(note.ifProvenAtMs, timeZone) })
    case 'airUnproven':
      return note.ifProvenAtMs === undefined
        ? message('note.airUnproven', { by: apart(note.byC) })
        : message('note.airUnprovenReady', {
            by: apart(note.byC),
            ready: readyOnClock(note.ifProvenAtMs, timeZone),
          })
    case 'panelStartAssumed':
      return message('note.panelStartAssumed', { temperature: degrees(note.temperatureC) })
    case 'stalled':
      return message('note.stalled', {
        lowest: degrees(note.lowestCureC),
        from: clock(note.fromMs),
        to: clock(note.toMs),
      })
    case 'capped':
      return message('note.capped', {
        highest: degrees(note.highestCureC),
        from: clock(note.fromMs),
        to: clock(note.toMs),
      })
    case 'extrapolated':
      return message('note.extrapolated', {
        coldest: degrees(note.countedC.min),
        warmest: degrees(note.countedC.max),
        low: degrees(note.publishedC.min),
        high: degrees(note.publishedC.max),
      })
    case 'estimatedFromDoublingRule':
      return message('note.estimatedFromDoublingRule', {
        published: degrees(note.publishedC),
        step: apart(10),
      })
    case 'outsideServiceRange':
      return message('note.outsideServiceRange', {
        temperature: degrees(note.temperatureC),
        at: clock(note.atMs),
        low: degrees(note.serviceRangeC.min),
        high: degrees(note.serviceRangeC.max),
      })
  }
}
