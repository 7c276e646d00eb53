import { useEffect, useEffectEvent } from 'react'
import { isSeparatorKey, SEPARATOR } from './separators.ts'

/**
 * Keys further apart than this, ms, are not of one scan. Scanners send a key every few milliseconds, over a slow radio or on
 * a busy phone now and then one after some hundred; and who types a code by hand, with no field chosen, means the same.
 */
const KEY_MS = 500
const SHORTEST = 4

/**
 * A scanner that types like a keyboard, wherever the focus is but in a field: gloves need not tap the field first. Where a
 * field has the focus, the scan is typed into it as ever.
 */
export function Wedge({ onScan }: { readonly onScan: (text: string) => void }) {
  const scanned = useEffectEvent(onScan)
  useEffect(() => {
    let text = ''
    let lastMs = 0
    const onKey = (event: KeyboardEvent) => {
      const nowMs = event.timeStamp
      if (nowMs - lastMs > KEY_MS) text = ''
      lastMs = nowMs
      if (isTyping(event.target) || event.altKey || event.metaKey) {
        text = ''
      } else if (event.key === 'Enter') {
        const whole = text
        text = ''
        if (whole.trim().length < SHORTEST) return
        // Else it would press whatever has the focus.
        event.preventDefault()
        event.stopPropagation()
        scanned(whole)
      } else if (isSeparatorKey(event)) text += SEPARATOR
      else if (event.key.length === 1 && !event.ctrlKey) text += event.key
    }
    document.addEventListener('keydown', onKey, true)
    return () => document.removeEventListener('keydown', onKey, true)
  }, [])
  return null
}

const NO_TEXT = new Set(['checkbox', 'radio', 'button', 'submit', 'reset', 'range', 'color', 'file'])

function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement) return !NO_TEXT.has(target.type)
  return (
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement ||
    (target instanceof HTMLElement && target.isContentEditable)
  )
}
