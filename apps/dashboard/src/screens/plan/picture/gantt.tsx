import { Link } from '@tanstack/react-router'
import { fits } from './fits.ts'
import type {
  Booking,
  PlannedOperation,
  PlanDetail,
  Resource,
  ResourceTime,
  Shop,
} from '../../../api/types.ts'
import { useNow } from '../../../lib/use-now.ts'
import { useEffect, useRef, type ReactNode } from 'react'
import shared from '../../../ui/over-time.module.css'
import { Empty } from '../../../ui/waiting.tsx'
import { percent, placeIn, ticksOf, type Span } from '../../../features/timeline/time-scale.ts'
import { GanttBar } from './gantt-bar.tsx'
import styles from './gantt.module.css'
import { reachesOf, type Drawn, type Reach } from './reach.ts'
import { lanesOf, rowsOf, whyTaken, type Row } from './rows.ts'
import type { RowKind, Zoom } from '../search.ts'
import type { Verdict, Wish } from '../use-move.ts'
import { wishFor } from './wish-for.ts'
import { SCALES } from './zoom.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly plan: PlanDetail
  readonly resources: readonly Resource[]
  readonly bookings: readonly Booking[]
  readonly times: readonly ResourceTime[]
  readonly span: Span
  readonly rows: RowKind
  readonly zoom: Zoom
  readonly shop: Shop
  /** All of the span fits the width of a page then. */
  readonly isPrinting: boolean
  readonly mayMove: boolean
  readonly verdict: Verdict | undefined
  readonly onOpen: (operation: PlannedOperation) => void
  readonly onAsk: (wish: Wish) => void
  readonly onMake: (wish: Wish) => void
  readonly onForget: () => void
}

const MINUTE_MS = 60_000
/** What a landscape page (Letter, the narrower of the two usual ones, with its margins) has beside the names, px. */
const PRINTED_PX = 730
/** Of a bar that stands behind the operations: its padding and its border. */
const STAY_PADDING_PX = 14

/** The plan over time: work, cure and waiting apart, with nights, breaks and closed days behind them. */
export function Gantt(props: Props) {
  const { plan, resources, bookings, times, span, rows: kind, zoom, shop, isPrinting } = props
  const nowMs = useNow(60_000)
  const scale = SCALES[zoom]
  const spanMinutes = (span.endMs - span.startMs) / MINUTE_MS
  const minutePx = isPrinting ? PRINTED_PX / spanMinutes : scale.hourPx / 60
  const widthPx = spanMinutes * minutePx
  const ticks = ticksOf(span, isPrinting ? scale.printHoursPerTick : scale.hoursPerTick, shop.timeZone)
  // On paper, what lies beyond the page would make the browser shrink all of it, even where it is not seen.
  const shown = (atMs: number) => (isPrinting ? Math.min(span.endMs, Math.max(span.startMs, atMs)) : atMs)
  const left = (atMs: number) => ((shown(atMs) - span.startMs) / MINUTE_MS) * minutePx
  const rows = rowsOf(plan, resources, kind, bookings).map((row) => (isPrinting ? within(row, span) : row))
  const now = placeIn(span, nowMs, nowMs + 1)
  const scroll = useRef<HTMLDivElement>(null)
  // Where the day is, not where the night before it was.
  const startPx = left(Math.max(span.startMs, Math.min(nowMs, span.endMs)) - 3_600_000)
  useEffect(() => {
    if (scroll.current) scroll.current.scrollLeft = startPx
    // oxlint-disable-next-line react/exhaustive-deps -- a minute that passes must not move what somebody looks at
  }, [span.startMs, zoom])
  const numbers = new Map(plan.orders.map(({ id, number }) => [id, number]))
  if (rows.length === 0) return <Empty title={t('plan.nothingIsPlanned')} />

  return (
    <div
      ref={scroll}
      className={styles['scroll']}
      // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- what scrolls must be reachable by keyboard
      tabIndex={0}
      // oxlint-disable-next-line jsx-a11y/prefer-tag-over-role -- and is no landmark
      role="group"
      aria-label={t('plan.planOverTime')}
    >
      <div className={styles['canvas']} style={{ width: `calc(11.5rem + ${widthPx}px)` }}>
        <div className={`${shared['axis']} ${styles['axis']}`} aria-hidden>
          <b className={styles['corner']} />
          {ticks.map((tick) => (
            <span
              key={tick.atMs}
              className={tick.isDay ? shared['day'] : shared['hour']}
              style={{ left: left(tick.atMs) }}
            >
              {zoom === 'month' && tick.isDay ? tick.label.split(' ')[1] : tick.label}
            </span>
          ))}
        </div>
        {rows.map((row) => (
          <GanttRow
            key={row.id}
            row={row}
            off={offTimes(times, kind === 'people' ? row.id : null, kind === 'places' ? row.id : null, span)}
            left={left}
            dayLines={ticks.filter(({ isDay }) => isDay).map(({ atMs }) => left(atMs))}
            now={now === undefined ? undefined : percent(now.left)}
          >
            {(operation, { lane, left: leftPx, width }, reach) => (
              <GanttBar
                key={operation.operationId}
                operation={operation}
                label={numbers.get(operation.repairOrderId) ?? ''}
                left={leftPx}
                width={width}
                reach={reach}
                lane={lane}
                rowId={row.id}
                minutePx={minutePx}
                snapMinutes={scale.snapMinutes}
                zone={shop.timeZone}
                mayMove={props.mayMove}
                mark={markOf(props.verdict, operation.operationId)}
                onOpen={() => props.onOpen(operation)}
                onDrag={(wish) => props.onAsk(wishFor(operation, { kind, from: row.id }, wish))}
                onDrop={(wish) => props.onMake(wishFor(operation, { kind, from: row.id }, wish))}
                onCancel={props.onForget}
              />
            )}
          </GanttRow>
        ))}
      </div>
    </div>
  )
}

function within(row: Row, { startMs, endMs }: Span): Row {
  const isSeen = (each: { readonly startsAt: string; readonly endsAt: string }) =>
    Date.parse(each.startsAt) < endMs && Date.parse(each.endsAt) > startMs
  return {
    ...row,
    bars: row.bars.filter(isSeen),
    stays: row.stays.filter(isSeen),
    others: row.others.filter(isSeen),
  }
}

interface RowProps {
  readonly row: Row
  readonly off: readonly { readonly startMs: number; readonly endMs: number }[]
  readonly left: (atMs: number) => number
  readonly dayLines: readonly number[]
  readonly now: string | undefined
  readonly children: (operation: PlannedOperation, bar: Drawn, reach: Reach) => ReactNode
}

function GanttRow({ row, off, left, dayLines, now, children }: RowProps) {
  const sorted = row.bars.toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))
  const lanes = lanesOf(sorted)
  const bars = sorted.map(({ startsAt, endsAt }, i): Drawn => {
    const from = left(Date.parse(startsAt))
    return { left: from, width: left(Date.parse(endsAt)) - from, lane: lanes[i]! }
  })
  const reaches = reachesOf(bars)
  const stayLanes = lanesOf(row.stays)
  const barRows = Math.max(1, ...lanes.map((lane) => lane + 1))
  const stayRows = sorted.length > 0 || row.stays.length === 0 ? 0 : Math.max(...stayLanes) + 1
  const height = `${Math.max(barRows, stayRows) * 1.75 + 0.5}rem`
  return (
    <section
      className={`${shared['row']} ${styles['row']}`}
      aria-label={row.name}
      data-row={row.id}
      style={{ minHeight: height }}
    >
      <h2 className={styles['name']}>
        {row.name}
        {row.detail !== '' && <small title={row.detail}>{row.detail}</small>}
      </h2>
      <div className={`${shared['lane']} ${styles['lane']}`} style={{ minHeight: height }}>
        {off.map(({ startMs, endMs }) => (
          <i
            key={startMs}
            className={styles['off']}
            style={{ left: left(startMs), width: left(endMs) - left(startMs) }}
          />
        ))}
        {dayLines.map((x) => (
          <i key={x} className={styles['dayLine']} style={{ left: x }} />
        ))}
        {row.stays.map((stay, i) => (
          <span
            key={`${stay.startsAt} ${stay.label}`}
            className={styles['stay']}
            title={stay.label}
            style={{
              left: left(Date.parse(stay.startsAt)),
              width: left(Date.parse(stay.endsAt)) - left(Date.parse(stay.startsAt)),
              ...(sorted.length > 0 ? {} : { top: `${stayLanes[i]! * 1.75 + 0.25}rem`, height: '1.5rem' }),
            }}
          >
            {sorted.length === 0 && stay.label}
          </span>
        ))}
        {row.others.map((booking) => (
          <Link
            key={booking.id}
            to="/jobs/$repairOrderId"
            params={{ repairOrderId: booking.repairOrderId }}
            // As wide as its time (WCAG 2.2, 2.5.8); its vehicle is in the list of vehicles too.
            data-drawn-to-scale=""
            className={`${styles['stay']} ${styles['other']}`}
            title={`${booking.repairOrderNumber}, ${booking.vehicle}: ${whyTaken(booking)}`}
            aria-label={`${booking.repairOrderNumber}, ${booking.vehicle}: ${whyTaken(booking)}`}
            style={{
              left: left(Date.parse(booking.startsAt)),
              width: left(Date.parse(booking.endsAt)) - left(Date.parse(booking.startsAt)),
            }}
          >
            {fits(
              booking.repairOrderNumber,
              left(Date.parse(booking.endsAt)) - left(Date.parse(booking.startsAt)) - STAY_PADDING_PX,
            ) && booking.repairOrderNumber}
          </Link>
        ))}
        {now !== undefined && <i className={styles['now']} style={{ left: now }} />}
        {sorted.map((operation, i) => children(operation, bars[i]!, reaches[i]!))}
      </div>
    </section>
  )
}

function markOf(verdict: Verdict | undefined, operationId: string) {
  if (verdict?.wish.operationId !== operationId || verdict.kind === 'moved') return undefined
  return verdict.kind
}

/** What is shaded behind a row: whenever nobody works there. A bay is shaded as the shop is, for its cures go on all night. */
function offTimes(
  times: readonly ResourceTime[],
  personId: string | null,
  placeId: string | null,
  { startMs, endMs }: Span,
): { startMs: number; endMs: number }[] {
  const shop = times.find(({ resourceId }) => resourceId === null)
  const own = times.find(({ resourceId }) => resourceId === (personId ?? placeId))
  const base = personId === null ? shop : (own ?? shop)
  if (!base) return []
  const working = [...base.shifts, ...base.overtime]
    .map((each) => ({ startMs: Date.parse(each.startsAt), endMs: Date.parse(each.endsAt) }))
    .toSorted((a, b) => a.startMs - b.startMs)
  const off: { startMs: number; endMs: number }[] = []
  let from = startMs
  for (const each of working) {
    if (each.startMs > from) off.push({ startMs: from, endMs: each.startMs })
    from = Math.max(from, each.endMs)
  }
  if (from < endMs) off.push({ startMs: from, endMs })
  return off
}
