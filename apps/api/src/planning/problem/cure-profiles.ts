import { message, type Message } from '@clampclock/messages'
import { cureRates, CURE_WORK, type RatePoint } from './cure-profile.ts'
import type { OperationFact, ShopFacts } from './facts.ts'

/** The rate profiles of a shop's cures: one for each sheet and panel in each bay, made once. */
export class CureProfiles {
  readonly #facts: ShopFacts
  readonly #profiles = new Map<string, readonly RatePoint[]>()
  readonly #blind: readonly string[]

  constructor(facts: ShopFacts) {
    this.#facts = facts
    this.#blind = facts.resources
      .filter(({ id, kind }) => kind === 'bay' && (facts.forecasts.get(id) ?? []).length === 0)
      .map(({ name }) => name)
  }

  of({ joint, id }: OperationFact): {
    readonly work: number
    readonly profileId: string
    readonly profileByResource: Record<string, string>
  } {
    if (!joint) throw new Error(`operation ${id} cures without a joint`)
    const key = `${joint.productId} ${joint.panelTauMinutes ?? 0}`
    const bays = this.#facts.resources.filter(({ kind }) => kind === 'bay')
    const known = bays.filter((bay) => (this.#facts.forecasts.get(bay.id) ?? []).length > 0)
    const rates = (bayId: string) =>
      this.#kept(`${key} ${bayId}`, () =>
        cureRates(
          joint.sheet,
          this.#facts.forecasts.get(bayId)!,
          this.#facts.originMs,
          joint.panelTauMinutes,
        ),
      )
    // A bay without a thermometer: at every minute as slow as the coldest of the others.
    this.#kept(`${key} any`, () => slowestOf(known.map(({ id: bayId }) => rates(bayId))))
    return {
      work: CURE_WORK,
      profileId: `${key} any`,
      profileByResource: Object.fromEntries(known.map(({ id: bayId }) => [bayId, `${key} ${bayId}`])),
    }
  }

  all(): { id: string; points: readonly RatePoint[] }[] {
    return [...this.#profiles].map(([id, points]) => ({ id, points }))
  }

  assumptions(): Message[] {
    return this.#blind.map((bay) => message('plan-problem.coldestOfOthers', { bay }))
  }

  #kept(key: string, make: () => readonly RatePoint[]): readonly RatePoint[] {
    const points = this.#profiles.get(key) ?? make()
    this.#profiles.set(key, points)
    return points
  }
}

/** At every minute the lowest of the rates. */
function slowestOf(profiles: readonly (readonly RatePoint[])[]): RatePoint[] {
  if (profiles.length === 0) return [{ atMinute: 0, ratePerMinute: 0 }]
  const minutes = [...new Set(profiles.flatMap((points) => points.map(({ atMinute }) => atMinute)))].toSorted(
    (a, b) => a - b,
  )
  return minutes.map((atMinute) => ({
    atMinute,
    ratePerMinute: Math.min(
      ...profiles.map((points) => points.findLast((point) => point.atMinute <= atMinute)!.ratePerMinute),
    ),
  }))
}
