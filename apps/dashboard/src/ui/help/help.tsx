import { Link } from '@tanstack/react-router'
import { CircleQuestionMark } from 'lucide-react'
import { useId, useRef, useState, type ToggleEvent } from 'react'
import { loadWords, t } from '../../lib/reader.ts'
import styles from './help.module.css'
import type { Term } from './terms.ts'

interface Props {
  readonly of: Term
  /** The term as it stands beside the button. */
  readonly name: string
}

/**
 * What a term means, in one line beside it, and the way to all of them. The browser's own popover: Escape or a press
 * elsewhere closes it, and the focus goes back to the button.
 */
export function Help({ of, name }: Props) {
  const id = useId()
  const button = useRef<HTMLButtonElement>(null)
  const [isThere, setThere] = useState(false)
  const onBeforeToggle = (event: ToggleEvent<HTMLElement>) => {
    if (event.newState !== 'open') return
    place(event.currentTarget, button.current)
    // The meanings come when somebody asks for the first; without them the keys would be shown.
    void loadWords(['help']).then(() => setThere(true))
  }
  return (
    <>
      <button
        ref={button}
        type="button"
        className={styles['button']}
        popoverTarget={id}
        aria-label={t('ui.whatIs', { name })}
      >
        <CircleQuestionMark size={16} aria-hidden />
      </button>
      {/* Spans: it stands within paragraphs and headings too. */}
      <span id={id} popover="auto" className={styles['popover']} onBeforeToggle={onBeforeToggle}>
        {isThere ? (
          <>
            <span className={styles['meaning']}>
              <strong>{t(`help.${of}.term`)}</strong>: {t(`help.${of}.meaning`)}
            </span>
            <Link to="/help" hash={of}>
              {t('help.allTerms')}
            </Link>
          </>
        ) : (
          '…'
        )}
      </span>
    </>
  )
}

const GAP_PX = 4
const EDGE_PX = 8
/** Room that a meaning takes at most, on a phone with the bar below it. */
const HEIGHT_REM = 14
const WIDTH_REM = 20

/** Below the button, or above it where no room is left, within the width of the screen; it goes along when the page is scrolled. */
function place(popover: HTMLElement, button: HTMLElement | null): void {
  if (button === null) return
  const { left, top, bottom } = button.getBoundingClientRect()
  const { clientWidth, clientHeight } = document.documentElement
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize)
  const rightmost = clientWidth - Math.min(WIDTH_REM * rem, clientWidth - 2 * EDGE_PX) - EDGE_PX
  const isBelow = clientHeight - bottom > HEIGHT_REM * rem || top < HEIGHT_REM * rem
  popover.style.left = `${Math.max(EDGE_PX, Math.min(left, rightmost)) + scrollX}px`
  popover.style.top = isBelow ? `${bottom + GAP_PX + scrollY}px` : 'auto'
  popover.style.bottom = isBelow ? 'auto' : `${clientHeight - top - scrollY + GAP_PX}px`
}
