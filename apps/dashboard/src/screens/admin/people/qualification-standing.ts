import type { Qualification } from '../../../api/types.ts'
import { formatDate } from '../../../lib/instants.ts'
import type { Tone } from '../../../ui/answers/tone.ts'
import { t } from '../../../lib/reader.ts'

/** Time enough to book a course. Common practice, no source. */
const SOON_DAYS = 60

type Known = Pick<Qualification, 'issuedOn' | 'validUntil' | 'ended'>

/** How a qualification stands on a day of the calendar, such as 2031-05-04; the service decides by the shop's own. */
export function standingOf(
  { issuedOn, validUntil, ended }: Known,
  today: string,
): { tone: Tone; word: string } {
  if (ended !== null)
    return {
      tone: 'quiet',
      word: t('admin.ended', { value: formatDate(ended.at.slice(0, 10)), reason: ended.reason }),
    }
  if (validUntil < today) return { tone: 'danger', word: t('admin.ranOut') }
  if (issuedOn > today) return { tone: 'quiet', word: t('admin.from', { issuedOn: formatDate(issuedOn) }) }
  const days = Math.round((Date.parse(validUntil) - Date.parse(today)) / 86_400_000)
  if (days > SOON_DAYS) return { tone: 'ready', word: t('admin.valid') }
  return {
    tone: 'warning',
    word: days === 0 ? t('admin.lastDay') : t('admin.daysLeft', { days }),
  }
}

/** Those that hold come first, the one that runs out soonest at the top; what has run out or was ended follows. */
export function byStanding(today: string): (a: Known, b: Known) => number {
  const isOver = ({ ended, validUntil }: Known) => Number(ended !== null || validUntil < today)
  return (a, b) => isOver(a) - isOver(b) || a.validUntil.localeCompare(b.validUntil)
}
