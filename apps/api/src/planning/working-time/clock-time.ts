/** Minutes since midnight on the shop's clock: 1440 is the end of the day. */
export function minuteOf(clockTime: string): number {
  const [hours = 0, minutes = 0] = clockTime.split(':').map(Number)
  return hours * 60 + minutes
}

export function clockTimeOf(minute: number): string {
  return `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`
}
