import type { Plan } from '../../api/types.ts'

/** A plan in one line: how many, how late, what it takes. */
export function figures({ summary }: Plan): string {
  if (summary === null) return ''
  const { orders, droppedOrders, lateOrders, lateMinutes, overtimeMinutes, shortMl } = summary
  return [
    droppedOrders > 0 ? dropped(droppedOrders) : '',
    `${orders} repair ${orders === 1 ? 'order' : 'orders'}`,
    lateOrders === 0 ? 'none late' : `${lateOrders} late, ${hours(lateMinutes)} in all`,
    overtimeMinutes > 0 ? `${hours(overtimeMinutes)} overtime` : '',
    shortMl > 0 ? `${Math.ceil(shortMl)} mL of adhesive lacking` : '',
  ]
    .filter((part) => part !== '')
    .join(', ')
}

export function dropped(count: number): string {
  return `${count} ${count === 1 ? 'vehicle' : 'vehicles'} dropped`
}

export function hours(minutes: number): string {
  const whole = Math.floor(minutes / 60)
  const rest = Math.round(minutes % 60)
  if (whole === 0) return `${rest} min`
  return rest === 0 ? `${whole} h` : `${whole} h ${rest} min`
}

export function notesOf(plan: Plan | undefined): string[] {
  if (!plan) return []
  return [
    ...plan.notes.unplanned.map(({ number, reasons }) => `${number} is not planned: ${reasons.join('; ')}`),
    ...plan.notes.assumptions,
  ]
}
