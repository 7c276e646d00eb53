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
    placeBelow(event.currentTarget, button.current)
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

/** Below the button, within the width of the screen; it goes along when the page is scrolled. */
function placeBelow(popover: HTMLElement, button: HTMLElement | null): void {
  if (button === null) return
  const { left, bottom } = button.getBoundingClientRect()
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize)
  const widest = document.documentElement.clientWidth - Math.min(20 * rem, innerWidth - 2 * EDGE_PX) - EDGE_PX
  popover.style.left = `${Math.max(EDGE_PX, Math.min(left, widest)) + scrollX}px`
  popover.style.top = `${bottom + GAP_PX + scrollY}px`
}
