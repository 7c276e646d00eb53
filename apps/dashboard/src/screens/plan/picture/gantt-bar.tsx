import { OctagonAlert } from 'lucide-react'
import { useRef, useState, type KeyboardEvent, type PointerEvent } from 'react'
import type { PlannedOperation } from '../../../api/types.ts'
import { formatInstant, formatSpan } from '../../../lib/instants.ts'
import { OPERATION } from '../../../lib/words.ts'
import shared from '../../../ui/over-time.module.css'
import styles from './gantt.module.css'
import { fits } from './fits.ts'
import { LEAST_PX, type Reach } from './reach.ts'
import { t } from '../../../lib/reader.ts'

const MINUTE_MS = 60_000
/** A hand that trembles is no wish to move. */
const STILL_PX = 4
const EDGE_PX = 8
/** A bar narrower than that has no room for a word that says anything; its title has it. */
/** Room for words that is none: what stands beside them. */
const PADDING_PX = 10
const SIGN_PX = 16

export interface BarWish {
  /** How far the start moves; or, of the right edge, how much longer it takes. */
  readonly minutes: number
  readonly isResize: boolean
  /** The row it is held over. */
  readonly rowId: string
}

interface Props {
  readonly operation: PlannedOperation
  readonly label: string
  readonly left: number
  readonly width: number
  /** What of the free space beside it takes hold of it too, px. */
  readonly reach: Reach
  readonly lane: number
  readonly rowId: string
  readonly minutePx: number
  readonly snapMinutes: number
  readonly zone: string
  readonly mayMove: boolean
  readonly mark: 'allowed' | 'refused' | 'asking' | undefined
  readonly onOpen: () => void
  readonly onDrag: (wish: BarWish) => void
  readonly onDrop: (wish: BarWish) => void
  readonly onCancel: () => void
}

/** One operation. It is a button; it is dragged by its body, lengthened by its right edge, and moved by Alt and arrow keys. */
export function GanttBar(props: Props) {
  const { operation, label, left, width, reach, lane, rowId, minutePx, snapMinutes, zone, mayMove, mark } =
    props
  const [drag, setDrag] = useState<BarWish & { readonly fromX: number; readonly isReal: boolean }>()
  // The browser clicks what was pressed and let go, be it after a drag, when the drag is over already.
  const wasDragged = useRef(false)
  const isCure = operation.kind === 'cure'
  const isDone = operation.finishedAt !== null
  const canMove = mayMove && operation.startedAt === null && !isCure
  const snap = (px: number) => Math.round(px / minutePx / snapMinutes) * snapMinutes

  const wishOf = (
    event: PointerEvent,
    from: { readonly fromX: number; readonly isResize: boolean },
  ): BarWish => ({
    minutes: snap(event.clientX - from.fromX),
    isResize: from.isResize,
    rowId: from.isResize ? rowId : (rowUnder(event) ?? rowId),
  })
  const down = (event: PointerEvent<HTMLButtonElement>) => {
    if (!canMove || event.button !== 0) return
    const box = event.currentTarget.getBoundingClientRect()
    const isResize = box.width > 3 * EDGE_PX && box.right - event.clientX < EDGE_PX
    event.currentTarget.setPointerCapture(event.pointerId)
    wasDragged.current = false
    setDrag({ fromX: event.clientX, isResize, minutes: 0, rowId, isReal: false })
  }
  const move = (event: PointerEvent<HTMLButtonElement>) => {
    if (!drag) return
    const isReal = drag.isReal || Math.abs(event.clientX - drag.fromX) > STILL_PX || rowUnder(event) !== rowId
    const wish = wishOf(event, drag)
    if (isReal && (wish.minutes !== drag.minutes || wish.rowId !== drag.rowId || !drag.isReal))
      props.onDrag(wish)
    setDrag({ ...drag, ...wish, isReal })
  }
  const up = (event: PointerEvent<HTMLButtonElement>) => {
    if (!drag) return
    const wish = wishOf(event, drag)
    setDrag(undefined)
    wasDragged.current = drag.isReal
    if (!drag.isReal) return
    if (wish.minutes === 0 && wish.rowId === rowId) props.onCancel()
    else props.onDrop(wish)
  }
  const key = (event: KeyboardEvent) => {
    if (event.key === 'Escape') {
      setDrag(undefined)
      props.onCancel()
    }
    if (!canMove || !event.altKey) return
    const step = event.key === 'ArrowRight' ? snapMinutes : event.key === 'ArrowLeft' ? -snapMinutes : 0
    if (step === 0) return
    event.preventDefault()
    props.onDrop({ minutes: step, isResize: event.shiftKey, rowId })
  }
  const shown = drag?.isReal ? drag : undefined
  const shift = shown && !shown.isResize ? shown.minutes * minutePx : 0
  const longer = shown?.isResize ? shown.minutes * minutePx : 0
  const words = [
    `${label}: ${operation.name}`,
    operation.jointName ?? '',
    formatSpan(formatInstant(operation.startsAt, zone), formatInstant(operation.endsAt, zone)),
    operation.expectedEndAt === null
      ? ''
      : t('plan.expected', { expectedEndAt: formatInstant(operation.expectedEndAt, zone, 'clock') }),
    operation.overtime ? t('plan.inOvertime') : '',
    isDone ? t('plan.finished') : operation.startedAt === null ? '' : t('plan.underWay'),
    operation.warning ?? '',
  ]
    .filter((word) => word !== '')
    .join(', ')
  const kind = OPERATION[operation.kind]
  const room = width - PADDING_PX - (operation.warning === null ? 0 : SIGN_PX)
  const shownWords = fits(`${label} ${kind}`, room) ? 'all' : fits(label, room) ? 'label' : ''
  const look = [
    shared['bar'],
    styles['bar'],
    styles[LOOK[operation.kind]],
    isDone ? styles['done'] : '',
    canMove ? styles['movable'] : '',
    operation.warning === null ? '' : styles['warned'],
    shown ? styles['dragged'] : '',
    mark ? styles[mark] : '',
  ].join(' ')
  return (
    <button
      type="button"
      // As wide as its time: what would be too small a target elsewhere is essential here (WCAG 2.2, 2.5.8).
      data-drawn-to-scale=""
      className={look}
      style={{
        left: left + shift,
        width: Math.max(LEAST_PX, width + longer),
        top: `${lane * 1.75 + 0.25}rem`,
      }}
      aria-label={words}
      title={words}
      aria-keyshortcuts={canMove ? 'Alt+ArrowLeft Alt+ArrowRight' : undefined}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={() => {
        setDrag(undefined)
        props.onCancel()
      }}
      onKeyDown={key}
      onClick={() => {
        // By keyboard there is no pointer, and nothing to have been dragged.
        const isEndOfDrag = wasDragged.current
        wasDragged.current = false
        if (!isEndOfDrag) props.onOpen()
      }}
    >
      <i className={styles['reach']} style={{ left: -reach.left, right: -reach.right }} />
      {operation.warning !== null && width >= SIGN_PX && <OctagonAlert size={13} aria-hidden />}
      {shownWords !== '' && (
        <span>
          <b>{label}</b>
          {shownWords === 'all' && ` ${kind}`}
        </span>
      )}
      {isCure && operation.expectedEndAt !== null && (
        <i
          className={styles['expected']}
          style={{
            left:
              ((Date.parse(operation.expectedEndAt) - Date.parse(operation.startsAt)) / MINUTE_MS) * minutePx,
          }}
        />
      )}
    </button>
  )
}

const LOOK = {
  prepare: 'work',
  dryFit: 'work',
  bondAndClamp: 'bond',
  cure: 'cure',
  unclampAndDress: 'work',
  weld: 'work',
  sealAndPrime: 'work',
  paint: 'paint',
  bake: 'bake',
  cool: 'wait',
  refit: 'work',
} as const satisfies Record<PlannedOperation['kind'], string>

function rowUnder(event: PointerEvent): string | undefined {
  const under = document.elementsFromPoint(event.clientX, event.clientY)
  const row = under.map((each) => each.closest('[data-row]')).find((each) => each !== null)
  return row?.getAttribute('data-row') ?? undefined
}
