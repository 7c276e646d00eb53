/**
 * The server's time on this device. A phone with a wrong clock must not call a joint ready early, nor a work time long: the
 * `Date` header of each answer says what the server's time was, and the device's monotonic clock carries it on, which no
 * setting of the wall clock moves. What is not known of it (the header has whole seconds, an answer takes its time) is kept
 * as bounds, and counted against us by whoever asks.
 */
export interface ServerNow {
  readonly earliestMs: number
  readonly expectedMs: number
  readonly latestMs: number
}

/** Instants of the device: its monotonic clock and its wall clock, read together, ms. */
export interface DeviceInstant {
  readonly monotonicMs: number
  readonly wallMs: number
}

interface Lead {
  /** Bounds of the server's time less the monotonic clock, ms. */
  readonly lowMs: number
  readonly highMs: number
  /** When the two clocks of the device were last held against each other. */
  readonly seen: DeviceInstant
}

/** A `Date` header names the second that has begun. */
const HEADER_RESOLUTION_MS = 1000

/** Wall clock and monotonic clock part by this much when one was set, or the other stood still in a device that slept. */
const PARTED_MS = 2000

/**
 * What one answer says of the server's time: it was written between the question and the answer.
 *
 * @returns undefined where the header is missing or no date.
 */
export function leadFrom(
  dateHeader: string | null,
  sentAtMs: number,
  received: DeviceInstant,
): Lead | undefined {
  const serverMs = dateHeader === null ? Number.NaN : Date.parse(dateHeader)
  if (Number.isNaN(serverMs)) return undefined
  return {
    lowMs: serverMs - received.monotonicMs,
    highMs: serverMs + HEADER_RESOLUTION_MS - sentAtMs,
    seen: received,
  }
}

/** What two answers say together; where they contradict each other, what the later one says. */
export function narrowed(before: Lead | undefined, next: Lead): Lead {
  if (before === undefined) return next
  const known = carried(before, next.seen)
  const lowMs = Math.max(known.lowMs, next.lowMs)
  const highMs = Math.min(known.highMs, next.highMs)
  return lowMs <= highMs ? { lowMs, highMs, seen: next.seen } : next
}

/**
 * What is still known of it later. Where the device's two clocks have parted, either the wall clock was set or the device
 * slept and its monotonic clock with it: both may be.
 */
export function carried(lead: Lead, now: DeviceInstant): Lead {
  const partedMs = now.wallMs - lead.seen.wallMs - (now.monotonicMs - lead.seen.monotonicMs)
  if (Math.abs(partedMs) < PARTED_MS) return lead
  return {
    lowMs: lead.lowMs + Math.min(0, partedMs),
    highMs: lead.highMs + Math.max(0, partedMs),
    seen: now,
  }
}

let lead: Lead | undefined

export function deviceNow(): DeviceInstant {
  return { monotonicMs: performance.now(), wallMs: Date.now() }
}

/** How long ago an instant of the device was, the longer by its two clocks: one of them may have stood still, ms. */
export function elapsedMs({ monotonicMs, wallMs }: DeviceInstant): number {
  const now = deviceNow()
  return Math.max(now.monotonicMs - monotonicMs, now.wallMs - wallMs)
}

export function noteServerDate(dateHeader: string | null, sentAtMs: number, received: DeviceInstant): void {
  const next = leadFrom(dateHeader, sentAtMs, received)
  if (next !== undefined) lead = narrowed(lead, next)
}

/** Now on the server's clock, with its bounds. Before the first answer, the device's own time. */
export function serverNow(): ServerNow {
  const now = deviceNow()
  if (lead === undefined) return { earliestMs: now.wallMs, expectedMs: now.wallMs, latestMs: now.wallMs }
  lead = carried(lead, now)
  const earliestMs = now.monotonicMs + lead.lowMs
  const latestMs = now.monotonicMs + lead.highMs
  return { earliestMs, expectedMs: (earliestMs + latestMs) / 2, latestMs }
}

/** Now on the server's clock, in ms, as near as is known. */
export function serverNowMs(): number {
  return serverNow().expectedMs
}
