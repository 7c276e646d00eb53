import { judgeAgain } from './attention/watch/judge-again.ts'
import { closeAlert, raiseAlert } from './attention/alerts/raise.ts'
import { bondChanged } from './cure/bonds/events.ts'
import { recheckReleasesIn } from './cure/bonds/recheck.ts'
import { airLearned } from './cure/temperature/events.ts'
import { sheetApproved } from './work/catalogue/events.ts'
import { attentionNeeded, attentionOver } from './foundation/events/attention.ts'
import { listen, on } from './foundation/events/domain-event.ts'
import { wakeAfter } from './foundation/jobs/wake.ts'
import { keepBayOfBond } from './planning/bookings/keep-bay.ts'

/**
 * What follows from what: every event that a module tells upward, and who hears it, in the same transaction; and what is
 * looked at again by a job after which changes.
 */
export function startReacting(): void {
  listen([
    on(attentionNeeded, raiseAlert),
    on(attentionOver, closeAlert),
    on(airLearned, recheckReleasesIn),
    on(bondChanged, keepBayOfBond),
    on(sheetApproved, judgeAgain),
  ])
  wakeAfter({
    // What an alert may follow from; alerts themselves would go round in a circle.
    watch: ['stock', 'temperature', 'bookings', 'bonds', 'shops', 'plans'],
    // A chain begins with its first shop; from then on it comes once a day.
    retention: ['shops'],
  })
}
