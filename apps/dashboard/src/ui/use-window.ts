import { useEffect, useRef, useState } from 'react'
import { windowOf, type Window } from './windowed.ts'

/** Follows the page's own scrolling, so that a list of thousands keeps one scroll bar and a small document. */
export function useWindow(count: number, rowHeightPx: number) {
  const list = useRef<HTMLDivElement>(null)
  const [shown, setShown] = useState<Window>({ first: 0, end: Math.min(count, 40) })
  useEffect(() => {
    const measure = () => {
      const top = list.current?.getBoundingClientRect().top ?? 0
      const next = windowOf({
        count,
        rowHeightPx,
        scrolledPx: -top,
        screenPx: window.innerHeight,
        overscan: 8,
      })
      setShown((old) => (old.first === next.first && old.end === next.end ? old : next))
    }
    measure()
    window.addEventListener('scroll', measure, { passive: true, capture: true })
    window.addEventListener('resize', measure)
    return () => {
      window.removeEventListener('scroll', measure, { capture: true })
      window.removeEventListener('resize', measure)
    }
  }, [count, rowHeightPx])
  return { list, ...shown }
}
