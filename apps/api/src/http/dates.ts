/** PostgreSQL's `date` as the driver carries it: midnight UTC of that day. */
export function dateOf(isoDate: string): Date {
  return new Date(`${isoDate}T00:00:00Z`)
}

export function isoDate(date: Date): string {
  return date.toISOString().slice(0, 10)
}
