import { MS_PER_MINUTE } from '@clampclock/quantities'
import type { EstimateNote } from '../readings/notes.ts'
import { STALE_LIMIT_MINUTES, type ForecastPoint, type Reading } from '../readings/reading.ts'
import { readingBand, type Triple } from '../readings/temperature-line.ts'
import { lowerEdge, upperEdge } from './edges.ts'
import { afterMinutes, HOURS, type PlaceLimits } from './place.ts'

/** A stretch on which the air, or the metal where it was itself measured, lies between two straight lines. */
export interface Piece {
  readonly kind: 'air' | 'metal'
  readonly fromMs: number
  readonly toMs: number
  readonly from: Triple
  readonly to: Triple
}

export interface Pieces {
  readonly pieces: readonly Piece[]
  readonly note?: EstimateNote
}

/** A shop's own air, heated: what metal that is warmer may fall to when nobody measures either. Common practice. */
const HEATED_SHOP_C = 18
const MS_PER_HOUR = 60 * MS_PER_MINUTE

const limitMinutesOf = (a: Reading, b: Reading): number =>
  Math.min(STALE_LIMIT_MINUTES[a.source], STALE_LIMIT_MINUTES[b.source])

/**
 * From one reading to the next of the same kind. Within the stale limit they are joined by straight lines, pulled
 * outwards by readings in doubt. A longer silence is as cold as the place can have become: no colder than it falls
 * from the first, and no colder than it must have been to rise to the second.
 */
export function between(
  kind: Piece['kind'],
  first: Reading,
  second: Reading,
  doubted: readonly Reading[],
  place: PlaceLimits,
): Pieces {
  const limitMinutes = limitMinutesOf(first, second)
  const span = { fromMs: first.atMs, toMs: second.atMs }
  const minutes = (second.atMs - first.atMs) / MS_PER_MINUTE
  const [a, b] = [readingBand(first), readingBand(second)]
  if (minutes <= limitMinutes) return { pieces: outwards(kind, span, a, b, doubted) }
  const fallsFrom = startOf(kind, a)
  // Each straight between the hours: where two of them cross, the edge has a corner.
  const bounds = (
    ms: number,
  ): { readonly low: readonly number[]; readonly high: readonly number[]; readonly c: Triple } => {
    const [since, until] = [(ms - first.atMs) / MS_PER_MINUTE, (second.atMs - ms) / MS_PER_MINUTE]
    const c = mix(a, b, (ms - first.atMs) / (second.atMs - first.atMs))
    return {
      c,
      low: [c[0], fallsFrom[0] - afterMinutes(place.fallC, since), b[0] - afterMinutes(place.riseC, until)],
      high: [c[2], a[2] + afterMinutes(place.riseC, since), b[2] + afterMinutes(place.fallC, until)],
    }
  }
  const at = (ms: number): Triple => {
    const { low, high, c } = bounds(ms)
    // Two readings further apart than the place is thought capable of: at least what lies between them may have been.
    return [
      Math.min(low[0]!, Math.max(low[1]!, low[2]!)),
      c[1],
      Math.max(high[0]!, Math.min(high[1]!, high[2]!)),
    ]
  }
  const clamped = clampedBy(doubted, at)
  const doubtedAtMs = doubted.map(({ atMs }) => atMs)
  const hours = sortedWithin([...hourMarks(span), ...doubtedAtMs], first.atMs, second.atMs)
  const marks = withCrossings(hours, (ms) => [bounds(ms).low, bounds(ms).high])
  const pieces = join(kind, marks, clamped)
  const coldestC = Math.min(...pieces.flatMap(({ from, to }) => [from[0], to[0]]))
  const marginC = Math.max(0, Math.min(a[0], b[0]) - coldestC)
  return { pieces, note: { kind: 'gapBridged', ...span, limitMinutes, marginC } }
}

/**
 * From the last reading on, while no other comes. Air falls from the first minute; metal speaks for its stale limit
 * first. Once stale, the colder of that and the forecast.
 */
export function since(
  kind: Piece['kind'],
  last: Reading,
  toMs: number,
  doubted: readonly Reading[],
  place: PlaceLimits,
  forecast: ForecastPoint | undefined,
): Pieces {
  const limitMinutes = STALE_LIMIT_MINUTES[last.source]
  const limitMs = last.atMs + limitMinutes * MS_PER_MINUTE
  const band = readingBand(last)
  const start = startOf(kind, band)
  const falling = (ms: number): Triple => {
    const minutes = (ms - last.atMs) / MS_PER_MINUTE
    return [
      start[0] - afterMinutes(place.fallC, minutes),
      band[1],
      band[2] + afterMinutes(place.riseC, minutes),
    ]
  }
  const stale = (ms: number): Triple => {
    const c = falling(ms)
    if (forecast === undefined) return c
    return [Math.min(c[0], forecast.lowC), c[1], Math.max(c[2], forecast.highC)]
  }
  const fresh = kind === 'metal' ? () => band : falling
  const freshEndMs = Math.min(toMs, limitMs)
  const freshMarks = [last.atMs, ...doubted.map(({ atMs }) => atMs), freshEndMs]
  const pieces = join(kind, sortedWithin(freshMarks, last.atMs, freshEndMs), clampedBy(doubted, fresh))
  if (toMs <= limitMs) return { pieces }
  const marks = hourMarks({ fromMs: last.atMs, toMs }).concat(
    limitMs,
    doubted.map(({ atMs }) => atMs),
  )
  const stalePieces = join(kind, sortedWithin(marks, limitMs, toMs), clampedBy(doubted, stale))
  const marginC = band[0] - falling(toMs)[0]
  return {
    pieces: [...pieces, ...stalePieces],
    note: { kind: 'staleTemperature', fromMs: limitMs, toMs, source: last.source, limitMinutes, marginC },
  }
}

/**
 * Before the first reading: that reading within its stale limit, further away no warmer than it can have risen from.
 * It depends on the distance alone, so that a later start never sees a warmer past.
 */
export function before(
  kind: Piece['kind'],
  first: Reading,
  fromMs: number,
  band: Triple,
  place: PlaceLimits,
): Pieces {
  const limitMinutes = STALE_LIMIT_MINUTES[first.source]
  const limitMs = first.atMs - limitMinutes * MS_PER_MINUTE
  const held = { kind, fromMs: Math.max(fromMs, limitMs), toMs: first.atMs, from: band, to: band } as const
  if (fromMs >= limitMs) return { pieces: [held] }
  const at = (ms: number): Triple => {
    const minutes = (first.atMs - ms) / MS_PER_MINUTE
    return [
      band[0] - afterMinutes(place.riseC, minutes),
      band[1],
      band[2] + afterMinutes(place.fallC, minutes),
    ]
  }
  const marks = hourMarks({ fromMs, toMs: first.atMs })
  const pieces = join(kind, sortedWithin(marks, fromMs, limitMs), at)
  const marginC = afterMinutes(place.riseC, (first.atMs - fromMs) / MS_PER_MINUTE)
  return {
    pieces: [...pieces, held],
    note: { kind: 'gapBridged', fromMs, toMs: first.atMs, limitMinutes, marginC },
  }
}

/** The bay's air as forecast, from an instant on. */
export function* ahead(
  kind: Piece['kind'],
  forecast: readonly ForecastPoint[],
  fromMs: number,
): Generator<Piece, void, void> {
  let at = fromMs
  for (const [i, next] of forecast.entries()) {
    if (next.atMs <= at) continue
    const to: Triple = [next.lowC, next.expectedC, next.highC]
    const last = forecast[i - 1]
    let from = to
    if (last !== undefined) {
      const share = (at - last.atMs) / (next.atMs - last.atMs)
      from = mix([last.lowC, last.expectedC, last.highC], to, share)
    }
    yield { kind, fromMs: at, toMs: next.atMs, from, to }
    at = next.atMs
  }
}

/** The part of a piece between two instants; undefined where there is none. */
export function partOf(piece: Piece, fromMs: number, toMs: number): Piece | undefined {
  const [start, end] = [Math.max(piece.fromMs, fromMs), Math.min(piece.toMs, toMs)]
  if (!(end > start)) return undefined
  if (start === piece.fromMs && end === piece.toMs) return piece
  const share = (ms: number): number => (ms - piece.fromMs) / (piece.toMs - piece.fromMs)
  return {
    kind: piece.kind,
    fromMs: start,
    toMs: end,
    from: mix(piece.from, piece.to, share(start)),
    to: mix(piece.from, piece.to, share(end)),
  }
}

function mix(a: Triple, b: Triple, share: number): Triple {
  return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), a[2] + share * (b[2] - a[2])]
}

/** Metal that was warmer than a shop's air has that to fall to. */
function startOf(kind: Piece['kind'], band: Triple): Triple {
  return kind === 'metal' ? [Math.min(band[0], HEATED_SHOP_C), band[1], band[2]] : band
}

/** Straight lines, the outer two pulled out to the readings in doubt between their ends. */
function outwards(
  kind: Piece['kind'],
  span: { readonly fromMs: number; readonly toMs: number },
  a: Triple,
  b: Triple,
  doubted: readonly Reading[],
): readonly Piece[] {
  if (doubted.length === 0) return [{ kind, ...span, from: a, to: b }]
  const bands = doubted.map((reading) => ({ atMs: reading.atMs, band: readingBand(reading) }))
  const points = (line: 0 | 2): readonly (readonly [number, number])[] => [
    [span.fromMs, a[line]],
    ...bands.map(({ atMs, band }) => [atMs, band[line]] as const),
    [span.toMs, b[line]],
  ]
  const [low, high] = [lowerEdge(points(0)), upperEdge(points(2))]
  const at = (ms: number): Triple => {
    const share = (ms - span.fromMs) / (span.toMs - span.fromMs)
    return [low(ms), a[1] + share * (b[1] - a[1]), high(ms)]
  }
  const marks = [span.fromMs, ...doubted.map(({ atMs }) => atMs), span.toMs]
  return join(kind, sortedWithin(marks, span.fromMs, span.toMs), at)
}

/** From each reading in doubt on no warmer than it was, and no colder on the warm side. */
function clampedBy(doubted: readonly Reading[], at: (ms: number) => Triple): (ms: number) => Triple {
  if (doubted.length === 0) return at
  const bands = doubted.map((reading) => ({ atMs: reading.atMs, band: readingBand(reading) }))
  return (ms) => {
    const c = at(ms)
    let [low, high] = [c[0], c[2]]
    for (const { atMs, band } of bands) {
      if (atMs > ms) continue
      low = Math.min(low, band[0])
      high = Math.max(high, band[2])
    }
    return [low, c[1], high]
  }
}

/** Corners of the tables of a place, from both ends; beyond their last hour they stay. */
function hourMarks({ fromMs, toMs }: { readonly fromMs: number; readonly toMs: number }): number[] {
  const marks: number[] = []
  for (let hour = 1; hour <= HOURS; hour++) marks.push(fromMs + hour * MS_PER_HOUR, toMs - hour * MS_PER_HOUR)
  return sortedWithin(marks, fromMs, toMs)
}

/** One more mark wherever two of the bounds cross between two marks; they are straight there. */
function withCrossings(
  marks: readonly number[],
  bounds: (ms: number) => readonly (readonly number[])[],
): readonly number[] {
  const more: number[] = [...marks]
  for (let i = 1; i < marks.length; i++) {
    const [from, to] = [marks[i - 1]!, marks[i]!]
    const [start, end] = [bounds(from), bounds(to)]
    for (const [side, values] of start.entries()) {
      for (let x = 0; x < values.length; x++) {
        for (let y = 0; y < x; y++) {
          const [before, after] = [values[x]! - values[y]!, end[side]![x]! - end[side]![y]!]
          if (before * after < 0) more.push(from + ((to - from) * before) / (before - after))
        }
      }
    }
  }
  return sortedWithin(more, marks[0]!, marks.at(-1)!)
}

function sortedWithin(marks: readonly number[], fromMs: number, toMs: number): number[] {
  const inside = marks.filter((ms) => ms > fromMs && ms < toMs)
  return [...new Set([fromMs, ...inside, toMs])].toSorted((a, b) => a - b)
}

function join(kind: Piece['kind'], marks: readonly number[], at: (ms: number) => Triple): readonly Piece[] {
  const pieces: Piece[] = []
  for (let i = 1; i < marks.length; i++) {
    const [fromMs, toMs] = [marks[i - 1]!, marks[i]!]
    pieces.push({ kind, fromMs, toMs, from: at(fromMs), to: at(toMs) })
  }
  return pieces
}
