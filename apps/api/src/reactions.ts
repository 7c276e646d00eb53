import { judgeAgain } from './alerts/judge-again.ts'
import { closeAlert, raiseAlert } from './alerts/raise.ts'
import { bondChanged } from './bonds/events.ts'
import { sheetApproved } from './catalogue/events.ts'
import { attentionNeeded, attentionOver } from './events/attention.ts'
import { listen, on } from './events/domain-event.ts'
import { keepBayOfBond } from './schedule/keep-bay.ts'

/** What follows from what: every event that a module tells upward, and who hears it, in the same transaction. */
export function startReacting(): void {
  listen([
    on(attentionNeeded, raiseAlert),
    on(attentionOver, closeAlert),
    on(bondChanged, keepBayOfBond),
    on(sheetApproved, judgeAgain),
  ])
}
