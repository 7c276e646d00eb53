import { useRef } from 'react'

/** For a dialog that is there only while it is open: holds what had the focus, and gives it back once the dialog is gone. */
export function useFocusBack() {
  const held = useRef<Element>(null)
  return {
    hold: () => {
      held.current = document.activeElement
    },
    giveBack: () => {
      // After the dialog has left the page, and with it the focus.
      setTimeout(() => {
        const { activeElement, body } = document
        if (activeElement === body && held.current instanceof HTMLElement)
          held.current.focus({ preventScroll: true })
      })
    },
  }
}
