import { useLayoutEffect, useRef, useState, type RefObject } from 'react'

/** How wide an element is, px, now and after each change; undefined until it is there. */
export function useWidth<Of extends HTMLElement>(): [RefObject<Of | null>, number | undefined] {
  const ref = useRef<Of>(null)
  const [width, setWidth] = useState<number>()
  useLayoutEffect(() => {
    const element = ref.current
    if (element === null) return
    const measure = () => setWidth(Math.floor(element.clientWidth))
    // Before the first paint: the plot must not come after the page that it is on.
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [ref, width]
}
