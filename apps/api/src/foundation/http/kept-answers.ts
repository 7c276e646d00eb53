/** Some 30 MB of the largest that there are. */
const MOST_KEPT = 500

/** An answer as it goes over the wire. */
export interface Wire {
  readonly text: string
  readonly version: number | undefined
}

interface Kept {
  readonly mark: string
  readonly second: number
  readonly wire: Promise<Wire>
}

/**
 * Answers that are there: what was told within this second of the clock is told again, unless anything was written since
 * (docs/decisions/0204). So what time alone brings about is told on the second, and what anybody writes at once. Many who
 * ask for the same at one moment share one computation.
 */
export class KeptAnswers {
  readonly #kept = new Map<string, Kept>()

  /**
   * @param key The question, and all of whoever asks that the answer depends on.
   * @param mark As read before the answer is made: then it can only be older than what the answer tells.
   */
  tell(key: string, mark: string, now: Date, make: () => Promise<Wire>): Promise<Wire> {
    const second = Math.floor(now.getTime() / 1000)
    const known = this.#kept.get(key)
    this.#kept.delete(key)
    const kept = known?.mark === mark && known.second === second ? known : { mark, second, wire: make() }
    this.#kept.set(key, kept)
    if (this.#kept.size > MOST_KEPT) this.#kept.delete(this.#kept.keys().next().value!)
    if (kept !== known) kept.wire.catch(() => this.#forget(key, kept))
    return kept.wire
  }

  /** A refusal is computed each time. */
  #forget(key: string, kept: Kept): void {
    if (this.#kept.get(key) === kept) this.#kept.delete(key)
  }
}
