import type { LiveTopic } from '@clampclock/contracts'
import type { Tx } from '../database/database.ts'

/** That something is to be done, for a chain and subject; without `dueAt` as soon as the transaction is through. */
export interface WakeUp {
  readonly organizationId: string
  readonly queue: string
  readonly subject?: string
  readonly dueAt?: Date
}

/** What has been woken in a transaction that is under way: once is enough. */
const woken = new WeakMap<Tx, Set<string>>()

/** In the transaction of its cause: with it the job is certain, and without it there is none. */
export async function wake(tx: Tx, { organizationId, queue, subject = '', dueAt }: WakeUp): Promise<void> {
  if (dueAt === undefined) {
    const before = woken.get(tx) ?? new Set()
    woken.set(tx, before)
    const key = `${organizationId} ${queue} ${subject}`
    if (before.has(key)) return
    before.add(key)
  }
  await tx.$executeRaw`
    insert into job (organization_id, queue, subject, due_at)
    values (${organizationId}::uuid, ${queue}, ${subject}, coalesce(${dueAt ?? null}::timestamptz, now()))`
}

/** Which queues look at a chain again after which of its changes. */
export type Causes = Readonly<Record<string, readonly LiveTopic[]>>

let queuesOf = new Map<LiveTopic, readonly string[]>()

/** Says once, before anything happens, what is woken by which change; a second call takes the place of the first. */
export function wakeAfter(causes: Causes): void {
  queuesOf = new Map()
  for (const [queue, topics] of Object.entries(causes))
    for (const topic of topics) queuesOf.set(topic, [...(queuesOf.get(topic) ?? []), queue])
}

/** Wakes what looks at a chain again after a change of this kind, in the transaction of the change. */
export async function wakeAfterChange(tx: Tx, organizationId: string, topic: LiveTopic): Promise<void> {
  for (const queue of queuesOf.get(topic) ?? []) await wake(tx, { organizationId, queue })
}
