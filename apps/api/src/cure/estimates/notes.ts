import type { EstimateNote } from '@clampclock/cure'
import { formatTemperature, formatTemperatureDifference } from '@clampclock/quantities'
import { DateTime } from 'luxon'

/** What a reader must know beside the figures, in one sentence each, in the shop's own time. */
export function noteSentence(note: EstimateNote, timeZone: string, unit: 'C' | 'F'): string {
  const clock = (ms: number) => shopTime(ms, timeZone)
  const degrees = (c: number) => formatTemperature(c, unit)
  const apart = (c: number) => formatTemperatureDifference(c, unit)
  const worth = ({ ifProvenAtMs }: { readonly ifProvenAtMs?: number }) =>
    ifProvenAtMs === undefined ? '' : `: if that bears it out, it may be ready ${clock(ifProvenAtMs)}`
  switch (note.kind) {
    case 'gapBridged':
      return `No reading from ${clock(note.fromMs)} to ${clock(note.toMs)}: the careful estimate took it as far down as this place can have fallen, ${apart(note.marginC)} below the colder end.`
    case 'staleTemperature':
      return `The last reading is of ${clock(note.fromMs)}: the careful estimate has let it fall by ${apart(note.marginC)} since. A new panel reading would sharpen it.`
    case 'toldLate':
      return `Entered long after it is said to have been applied (${clock(note.appliedAtMs)}): the careful estimate counts from ${clock(note.countsFromMs)}.`
    case 'noTemperature':
      return 'No temperature has been read: nothing can be promised. Measure the panel.'
    case 'noForecast':
      return 'There is no forecast for this bay: only what has been reached already is given.'
    case 'forecastEnds':
      return `The forecast ends at ${clock(note.toMs)}, before ${note.milestones.map(milestoneName).join(' and ')}.`
    case 'readingsAfterNow':
      return `${note.count} readings are stamped later than now and were left out.`
    case 'suspectReadings':
      return `${note.count === 1 ? '1 reading is' : `${note.count} readings are`} in doubt: they may delay, but never hasten. Measure the panel again.`
    case 'panelLagUnknown':
      return 'How fast this panel follows the air of the bay is not known: the careful estimate takes the worst. Measure the metal again.'
    case 'metalNotFollowingAir':
      return `The metal read ${degrees(note.temperatureC)} at ${clock(note.atMs)}, which the air of the bay does not explain: the careful estimate took the coldest since the reading before.`
    case 'airAtJointApart': {
      const isBayWarmer = note.bayC > note.jointC
      return `The air at the joint read ${degrees(note.jointC)} at ${clock(note.atMs)}, the bay's thermometer ${degrees(note.bayC)}: the careful estimate takes the ${isBayWarmer ? "bay's" : 'one at the joint'} to read ${apart(Math.abs(note.bayC - note.jointC))} too warm. Measure the metal with another thermometer, and have the two compared.`
    }
    case 'metalUnproven':
      return `Nothing bears out the thermometer that read the metal: the careful estimate takes the metal to have come in as cold as it may have. Measure the metal with it and with another thermometer within a quarter of an hour${worth(note)}. Next time read the air at the joint with the one that reads the metal.`
    case 'airUnproven':
      return `The air at the joint is what the bay's thermometer shows, so neither bears the other out: the careful estimate lets the air warm the metal no further than it was measured to come, ${apart(note.byC)} below what it reads. Measure the metal again once it has warmed${worth(note)}.`
    case 'panelStartAssumed':
      return `The panel is taken to have started at ${degrees(note.temperatureC)}, the air of the bay.`
    case 'stalled':
      return `Below ${degrees(note.lowestCureC)} from ${clock(note.fromMs)} to ${clock(note.toMs)} on the careful estimate: it does not cure there at all.`
    case 'capped':
      return `Above ${degrees(note.highestCureC)} from ${clock(note.fromMs)} to ${clock(note.toMs)}: no credit for more heat.`
    case 'extrapolated':
      return `Temperatures from ${degrees(note.countedC.min)} to ${degrees(note.countedC.max)} counted; the data sheet publishes ${degrees(note.publishedC.min)} to ${degrees(note.publishedC.max)}.`
    case 'estimatedFromDoublingRule':
      return `The data sheet gives one temperature only (${degrees(note.publishedC)}): the rest follows the rule that cure doubles in speed for each ${apart(10)}.`
    case 'outsideServiceRange':
      return `${degrees(note.temperatureC)} at ${clock(note.atMs)} is outside the rated range of ${degrees(note.serviceRangeC.min)} to ${degrees(note.serviceRangeC.max)}.`
  }
}

function milestoneName(milestone: 'workTime' | 'handlingStrength' | 'fullCure'): string {
  return {
    workTime: 'the end of the work time',
    handlingStrength: 'handling strength',
    fullCure: 'full cure',
  }[milestone]
}

/** `Tue 14:05`: a bond lasts days, not weeks. */
export function shopTime(ms: number, timeZone: string): string {
  return DateTime.fromMillis(ms, { zone: timeZone, locale: 'en' }).toFormat('ccc HH:mm')
}
