import type { Tx } from '../database/database.ts'

/** Something that happened in one module and that modules above it may want to know of. */
export interface DomainEvent<Facts> {
  readonly name: string
  /** Only for the compiler: which facts it is told with. */
  readonly facts?: Facts
}

export function domainEvent<Facts>(name: string): DomainEvent<Facts> {
  return { name }
}

type Listener<Facts> = (tx: Tx, facts: Facts) => Promise<unknown>

/** Who hears of which event. */
export interface Reaction {
  readonly event: string
  readonly listener: Listener<never>
}

export function on<Facts>(event: DomainEvent<Facts>, listener: Listener<Facts>): Reaction {
  return { event: event.name, listener }
}

const listeners = new Map<string, Listener<never>[]>()

/** Says once, before anything happens, who hears of what; a second call takes the place of the first. */
export function listen(reactions: readonly Reaction[]): void {
  listeners.clear()
  for (const { event, listener } of reactions)
    listeners.set(event, [...(listeners.get(event) ?? []), listener])
}

/**
 * Tells everybody who listens, one after the other, in the transaction of what happened: what follows from it holds with
 * it or is gone with it.
 *
 * @throws {Error} when nobody listens: an event that is lost would be an alert that nobody sees.
 */
export async function tell<Facts>(tx: Tx, event: DomainEvent<Facts>, facts: Facts): Promise<void> {
  const hearing = listeners.get(event.name) as Listener<Facts>[] | undefined
  if (!hearing) throw new Error(`Nobody listens to "${event.name}": reactions.ts says who does`)
  for (const listener of hearing) await listener(tx, facts)
}
