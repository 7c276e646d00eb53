import type { Plan } from '../../api/types.ts'

type Told = Pick<Plan, 'state' | 'createdAt'>

/**
 * The draft to look at: the newest one. A draft that was made before the published plan has been passed over by whoever
 * published that; one made after it and outdated by another publication is still shown, and says so.
 */
export function currentDraft<P extends Told>(plans: readonly P[]): P | undefined {
  const published = plans.find(({ state }) => state === 'published')
  return plans
    .filter(({ state, createdAt }) => state === 'draft' && (!published || createdAt > published.createdAt))
    .toSorted((a, b) => b.createdAt.localeCompare(a.createdAt))[0]
}
