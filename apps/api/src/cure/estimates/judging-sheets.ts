import { message, type Message } from '@clampclock/messages'
import { dateOf, dayIn } from '../../foundation/http/dates.ts'
import { countsOn, isApproved, type WholeSheet } from '../../work/index.ts'
import type { BondRow } from './bond-store.ts'

/** How long after the clamps came off a new revision still speaks of a bond, days: what was driven for longer has told. */
export const RECENT_DAYS = 30

const DAY_MS = 86_400_000

/**
 * The revisions that a bond is judged by as of `at`: the one that it was made by, and each newer one that has been approved
 * and is valid since. Of one that was made by a proposal nobody approved: what counted when it was made, and what counts
 * since; empty where nothing does.
 *
 * A revision that began to count a month after the bond had ended no longer speaks of it.
 */
export function judgingSheets(bond: BondRow, at: Date, timeZone: string): readonly WholeSheet[] {
  const ended = bond.releasedAt ?? bond.abandonedAt
  const counting = bond.sheet.product.productSheets.filter((sheet) => countsOn(sheet, at, timeZone))
  if (!isApproved(bond.sheet)) {
    const first = counting.findIndex((sheet) => countsOn(sheet, bond.appliedAt, timeZone))
    return first === -1 ? counting : counting.slice(0, first + 1).toReversed()
  }
  const later = counting.filter(
    (sheet) => isNewer(sheet, bond.sheet) && (ended === null || spokeWithin(sheet, ended, timeZone)),
  )
  return [bond.sheet, ...later.toReversed()]
}

/** As `newestFirst` orders them. */
function isNewer(a: WholeSheet, b: WholeSheet): boolean {
  if (a.id === b.id) return false
  const days = a.issuedOn.getTime() - b.issuedOn.getTime()
  return days === 0 ? a.recordedAt > b.recordedAt : days > 0
}

function spokeWithin({ decision, validFrom }: WholeSheet, ended: Date, timeZone: string): boolean {
  const last = new Date(ended.getTime() + RECENT_DAYS * DAY_MS)
  if (decision === null || decision.decidedAt > last) return false
  return validFrom === null || validFrom <= dateOf(dayIn(last, timeZone))
}

/** Without instants: they move a little with each reading, and an alert that says the same is not told again. */
export function slowerSentence({ sheet }: BondRow, slower: WholeSheet): Message {
  return message('note.slowerSheet', {
    slower: slower.revision,
    product: sheet.product.name,
    revision: sheet.revision,
  })
}
