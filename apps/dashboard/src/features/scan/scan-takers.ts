/** Takes a scan that is meant for what is on the screen. @returns whether it did. */
type Taker = (text: string) => boolean

/** Offered each scan before the service is asked what it is: the field of every screen says it to the document. */
export function takeScans(take: Taker): () => void {
  const onScan = (event: Event) => {
    if (event instanceof CustomEvent && take(String(event.detail))) event.preventDefault()
  }
  document.addEventListener('scan', onScan)
  return () => document.removeEventListener('scan', onScan)
}
