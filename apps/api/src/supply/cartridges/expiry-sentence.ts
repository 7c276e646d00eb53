import { message, type Message } from '@clampclock/messages'
import type { CartridgeLife, ExpiryLimit } from '@clampclock/stock'
import { dayIn } from '../../foundation/http/dates.ts'

const HOUR_MS = 3_600_000
/** From here on whole days say it well enough. */
const DAYS_FROM = 1.95

/** What ends the life of a cartridge, as data; in English it is the reason of `effectiveExpiry`. */
export function expirySentence(life: CartridgeLife, limit: ExpiryLimit): Message {
  const { printedExpiry: day, warmStorageLossMs: lossMs } = life
  switch (limit) {
    case 'printedExpiry':
      return message('cartridge.printedExpiry', { day })
    case 'warmStorage': {
      const days = lossMs / (24 * HOUR_MS)
      return days >= DAYS_FROM
        ? message('cartridge.warmDays', { days: Math.round(days), day })
        : message('cartridge.warmHours', { hours: Math.round(lossMs / HOUR_MS), day })
    }
    case 'openLife':
      return message('cartridge.openLife', {
        day: dayIn(new Date(life.openedAtMs ?? 0), life.timeZone),
        days: life.openLifeDays,
      })
  }
}
