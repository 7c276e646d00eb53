/** When to stop, as values. The search ends at the first limit reached. */
export interface Stop {
  /** Moves, insertions or generations, whatever the engine counts as one step. */
  readonly iterations?: number
  /** Passes of a schedule generation scheme. */
  readonly schedules?: number
  /** Wall time; needs `nowMs`. Results then depend on the machine. */
  readonly milliseconds?: number
  /** Steps since the last improvement. */
  readonly withoutImprovement?: number
  /** A cost that is good enough. */
  readonly target?: number
}

/** Counts what was spent and says when to stop. Engines ask `spent()` in their inner loops; it is cheap. */
export class Budget {
  iterations = 0
  schedules = 0
  private readonly stop: Stop
  private readonly nowMs: (() => number) | null
  private readonly shouldStop: (() => boolean) | null
  private readonly startedMs: number
  private improvedAt = 0
  private nextPoll = 0
  private nextProgress = 0
  private lastProgress = 0
  private ended = false
  private readonly pollEvery: number

  constructor(stop: Stop, nowMs: (() => number) | null, shouldStop: (() => boolean) | null, pollEvery = 16) {
    if (stop.milliseconds !== undefined && nowMs === null) {
      throw new TypeError(
        'stop.milliseconds needs options.nowMs, a clock in milliseconds: this package reads none itself',
      )
    }
    this.stop = stop
    this.nowMs = nowMs
    this.shouldStop = shouldStop
    this.pollEvery = pollEvery
    this.startedMs = nowMs?.() ?? 0
  }

  improved(cost: number): void {
    this.improvedAt = this.iterations
    if (this.stop.target !== undefined && cost <= this.stop.target) this.ended = true
  }

  /** Makes the next question read the clock: for steps that take long. */
  askClock(): void {
    this.nextPoll = 0
    this.nextProgress = 0
  }

  elapsedMs(): number {
    return this.nowMs === null ? 0 : this.nowMs() - this.startedMs
  }

  /** Number of schedules that fit the budget, or null when it isn't counted in schedules. */
  get scheduleLimit(): number | null {
    return this.stop.schedules ?? null
  }

  /**
   * Share of the budget used, 0 to 1. In iterations when they are limited, so that annealing is the same on every
   * machine; else in time; else in ever longer rounds.
   */
  progress(): number {
    const { iterations, milliseconds } = this.stop
    if (iterations !== undefined) return Math.min(1, this.iterations / iterations)
    if (milliseconds !== undefined) {
      if (this.iterations >= this.nextProgress) {
        this.nextProgress = this.iterations + this.pollEvery
        this.lastProgress = Math.min(1, this.elapsedMs() / milliseconds)
      }
      return this.lastProgress
    }
    const round = Math.floor(Math.log2(this.iterations / 2000 + 1))
    const begun = 2000 * (2 ** round - 1)
    return (this.iterations - begun) / (2000 * 2 ** round)
  }

  spent(): boolean {
    if (this.ended) return true
    const { iterations, schedules, withoutImprovement, milliseconds } = this.stop
    if (
      this.iterations >= (iterations ?? Infinity) ||
      this.schedules >= (schedules ?? Infinity) ||
      this.iterations - this.improvedAt >= (withoutImprovement ?? Infinity)
    ) {
      this.ended = true
    } else if (this.iterations + this.schedules >= this.nextPoll) {
      this.nextPoll = this.iterations + this.schedules + this.pollEvery
      if (milliseconds !== undefined && this.elapsedMs() >= milliseconds) this.ended = true
      if (this.shouldStop?.()) this.ended = true
    }
    return this.ended
  }
}
