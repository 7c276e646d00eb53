/**
 * A phone with a wrong clock must not call a joint ready early. The `Date` header of each answer shows how far the
 * server's clock is ahead; it has whole seconds, so a difference below two seconds is taken for none.
 */
let aheadMs = 0

/** The server's lead in ms from one answer, taking the middle of the round trip as its instant. */
export function leadMs(
  dateHeader: string | null,
  sentAtMs: number,
  receivedAtMs: number,
): number | undefined {
  const serverMs = dateHeader === null ? Number.NaN : Date.parse(dateHeader)
  if (Number.isNaN(serverMs)) return undefined
  // A slow answer says little about the clock: half of its time is the error.
  if (receivedAtMs - sentAtMs > 5_000) return undefined
  const lead = serverMs + 500 - (sentAtMs + receivedAtMs) / 2
  return Math.abs(lead) < 2_000 ? 0 : lead
}

export function noteServerDate(dateHeader: string | null, sentAtMs: number, receivedAtMs: number): void {
  aheadMs = leadMs(dateHeader, sentAtMs, receivedAtMs) ?? aheadMs
}

/** Now on the server's clock, in ms. */
export function serverNowMs(): number {
  return Date.now() + aheadMs
}
