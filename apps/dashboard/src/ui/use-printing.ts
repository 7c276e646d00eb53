import { useEffect, useState } from 'react'
import { flushSync } from 'react-dom'

/** True while a page is printed, or looked at as it would be: what is drawn to scale is drawn to that of the paper. */
export function usePrinting(): boolean {
  const [isPrinting, setPrinting] = useState(false)
  useEffect(() => {
    const media = globalThis.matchMedia('print')
    // At once: the browser takes its picture right after the event.
    const set = (value: boolean) => flushSync(() => setPrinting(value))
    const onChange = () => set(media.matches)
    const before = () => set(true)
    const after = () => set(false)
    media.addEventListener('change', onChange)
    globalThis.addEventListener('beforeprint', before)
    globalThis.addEventListener('afterprint', after)
    return () => {
      media.removeEventListener('change', onChange)
      globalThis.removeEventListener('beforeprint', before)
      globalThis.removeEventListener('afterprint', after)
    }
  }, [])
  return isPrinting
}
