import type { Plan } from '../../api/types.ts'

type Told = Pick<Plan, 'state' | 'createdAt' | 'publishedAt'>

/**
 * The draft to look at: the newest one. A draft beside which a newer one was published has been passed over by whoever
 * published that. One that another plan has only outdated (a hand move publishes one by itself) is still shown, and says so.
 */
export function currentDraft<P extends Told>(plans: readonly P[]): P | undefined {
  const isPassedOver = (draft: P) =>
    plans.some(
      ({ createdAt, publishedAt }) =>
        publishedAt !== null && publishedAt > createdAt && createdAt > draft.createdAt,
    )
  return plans
    .filter((plan) => plan.state === 'draft' && !isPassedOver(plan))
    .toSorted((a, b) => b.createdAt.localeCompare(a.createdAt))[0]
}
