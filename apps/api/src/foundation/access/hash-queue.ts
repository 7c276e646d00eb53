import { message } from '@clampclock/messages'
import { ProblemError } from '../problems/problem-error.ts'

/** About as long as a full line takes on two cores at the default cost, seconds. */
const RETRY_AFTER_SECONDS = 5

/**
 * A line for work that takes much memory: so many at once, so many waiting, and whoever comes then is told to come again.
 * Hashing one password takes 128 MiB; a thousand people at the door must not take the service with them.
 */
export class HashQueue {
  readonly #atOnce: number
  readonly #mostWaiting: number
  readonly #waiting: (() => void)[] = []
  #running = 0

  constructor(atOnce: number, mostWaiting: number) {
    this.#atOnce = atOnce
    this.#mostWaiting = mostWaiting
  }

  /** @throws {ProblemError} `overloaded` with Retry-After when the line is full; `work` is not begun then. */
  async run<Result>(work: () => Promise<Result>): Promise<Result> {
    if (this.#running < this.#atOnce) this.#running += 1
    else await this.#turn()
    try {
      return await work()
    } finally {
      // Whoever is next takes the place over, so that nobody slips in between.
      const next = this.#waiting.shift()
      if (next) next()
      else this.#running -= 1
    }
  }

  #turn(): Promise<void> {
    if (this.#waiting.length >= this.#mostWaiting)
      throw new ProblemError('overloaded', message('setup-problem.hashingBusy'), [], RETRY_AFTER_SECONDS)
    return new Promise((resolve) => this.#waiting.push(resolve))
  }
}
