import type { Qualification } from '../../../api/types.ts'
import { formatDate } from '../../../lib/instants.ts'
import type { Tone } from '../../../ui/answers/tone.ts'

/** Time enough to book a course. Common practice, no source. */
const SOON_DAYS = 60

type Known = Pick<Qualification, 'issuedOn' | 'validUntil' | 'ended'>

/** How a qualification stands on a day of the calendar, such as 2031-05-04; the service decides by the shop's own. */
export function standingOf(
  { issuedOn, validUntil, ended }: Known,
  today: string,
): { tone: Tone; word: string } {
  if (ended !== null)
    return { tone: 'quiet', word: `Ended ${formatDate(ended.at.slice(0, 10))}: ${ended.reason}` }
  if (validUntil < today) return { tone: 'danger', word: 'Ran out' }
  if (issuedOn > today) return { tone: 'quiet', word: `From ${formatDate(issuedOn)}` }
  const days = Math.round((Date.parse(validUntil) - Date.parse(today)) / 86_400_000)
  if (days > SOON_DAYS) return { tone: 'ready', word: 'Valid' }
  return { tone: 'warning', word: days === 0 ? 'Last day' : `${days} ${days === 1 ? 'day' : 'days'} left` }
}

/** Those that hold come first, the one that runs out soonest at the top; what has run out or was ended follows. */
export function byStanding(today: string): (a: Known, b: Known) => number {
  const isOver = ({ ended, validUntil }: Known) => Number(ended !== null || validUntil < today)
  return (a, b) => isOver(a) - isOver(b) || a.validUntil.localeCompare(b.validUntil)
}
