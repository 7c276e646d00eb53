/** Takes a scan that is meant for what is on the screen. @returns whether it did. */
type Taker = (text: string) => boolean

const takers = new Set<Taker>()

/** Offers each scan to a form before the service is asked what it is. @returns what ends it. */
export function takeScans(take: Taker): () => void {
  takers.add(take)
  return () => void takers.delete(take)
}

export function isTaken(text: string): boolean {
  return [...takers].some((take) => take(text))
}
