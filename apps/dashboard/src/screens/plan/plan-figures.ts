import { formatVolume } from '../../lib/measures.ts'
import type { Plan } from '../../api/types.ts'
import { t } from '../../lib/reader.ts'

/** A plan in one line: how many, how late, what it takes. */
export function figures({ summary }: Plan): string {
  if (summary === null) return ''
  const { orders, droppedOrders, lateOrders, lateMinutes, overtimeMinutes, shortMl } = summary
  return [
    droppedOrders > 0 ? dropped(droppedOrders) : '',
    t('plan.repairOrders', { orders }),
    lateOrders === 0
      ? t('plan.noneLate')
      : t('plan.lateInAll', { lateOrders, lateMinutes: hours(lateMinutes) }),
    overtimeMinutes > 0 ? t('plan.overtime', { overtimeMinutes: hours(overtimeMinutes) }) : '',
    shortMl > 0 ? t('plan.adhesiveLacking', { short: formatVolume(shortMl, 'up') }) : '',
  ]
    .filter((part) => part !== '')
    .join(', ')
}

export function dropped(count: number): string {
  return t('plan.vehiclesDropped', { count })
}

export function hours(minutes: number): string {
  const whole = Math.floor(minutes / 60)
  const rest = Math.round(minutes % 60)
  if (whole === 0) return t('plan.min', { rest })
  return rest === 0 ? `${whole} h` : t('plan.hMin', { whole, rest })
}

export function notesOf(plan: Plan | undefined): string[] {
  if (!plan) return []
  return [
    ...plan.notes.unplanned.map(({ number, reasons }) =>
      t('plan.isNotPlanned', { number, value: reasons.join('; ') }),
    ),
    ...plan.notes.assumptions,
  ]
}
