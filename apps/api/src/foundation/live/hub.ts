import type { LiveEvent, LiveTopic } from '@clampclock/contracts'
import type { Database, Tx } from '../database/database.ts'
import { wakeAfterChange } from '../jobs/wake.ts'

export interface Heard {
  readonly organizationId: string
  readonly event: LiveEvent
}

type Listener = (heard: Heard | 'gap') => void

/** Passes on what the database announces, from whichever process it came. */
export class LiveHub {
  readonly #listeners = new Set<Listener>()

  async start(database: Database): Promise<void> {
    await database.listen(
      'clampclock_events',
      (payload) => {
        const { organizationId, shopId, topic, subjectId } = JSON.parse(payload) as {
          organizationId: string
          shopId: string | null
          topic: LiveTopic
          subjectId: string | null
        }
        this.#tell({ organizationId, event: { topic, shopId, id: subjectId } })
      },
      () => this.#tell('gap'),
    )
  }

  subscribe(listener: Listener): () => void {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  #tell(heard: Heard | 'gap'): void {
    for (const listener of this.#listeners) listener(heard)
  }
}

/**
 * Writes an event in the transaction of what it tells of: no event without the change, no change without the event. What
 * looks at the chain again after such a change is woken with it.
 */
export async function announce(
  tx: Tx,
  event: { organizationId: string; shopId: string | null; topic: LiveTopic; subjectId?: string | null },
): Promise<void> {
  await tx.outboxEvent.create({ data: { ...event, subjectId: event.subjectId ?? null } })
  await wakeAfterChange(tx, event.organizationId, event.topic)
}
