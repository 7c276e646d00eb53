import { randomUUID } from 'node:crypto'
import type { Database } from '../database/database.ts'

/**
 * Who works on a job is heard from at least so often, s, by the clock of the database; or they are taken for dead, and
 * another begins it again.
 */
const TAKEN_FOR_SECONDS = 60
/** How often who works says so, ms. */
export const HEARD_EVERY_MS = 20_000

/** Waits after each failure, s; the last one for ever after. Common practice, no source. */
const WAITS_SECONDS = [5, 15, 60, 300, 600] as const
/** With so many failures in a row it is told to the people of the chain: some six minutes after the first. */
export const TOLD_AFTER = 5

export interface Key {
  readonly organizationId: string
  readonly queue: string
  readonly subject: string
}

/** A job that this process works on. */
export interface Taken extends Key {
  readonly runId: string
  readonly takenBy: string
  readonly wakeUps: readonly bigint[]
  readonly dueAt: Date
  readonly failures: number
}

interface KeyRow {
  organization_id: string
  queue: string
  subject: string
}

export interface Lane {
  readonly queue: string
  readonly slots: number
  readonly slotsOfChain: number
}

/**
 * What is due and nobody works on, for each queue as many as it has slots free: of chains that have none running first,
 * then what has waited longest. Only the table of jobs is read, nothing of any chain.
 */
export async function waiting(
  { prisma }: Database,
  lanes: readonly Lane[],
  now: Date,
): Promise<(Key & { dueAt: Date })[]> {
  const rows = await prisma.$queryRaw<(KeyRow & { due_at: Date })[]>`
    with lane as (select * from json_to_recordset(${JSON.stringify(lanes)}::json) as l (queue text, slots int, "slotsOfChain" int)),
    due as (
      select j.organization_id, j.queue, j.subject, min(j.due_at) as due_at
        from job j where j.due_at <= greatest(${now}::timestamptz, now()) group by 1, 2, 3),
    busy as (
      select organization_id, queue, count(*) as running from job_run where taken_until > now() group by 1, 2),
    free as (
      select d.*, coalesce(b.running, 0) as running, l.slots, l."slotsOfChain" as slots_of_chain,
             row_number() over (partition by d.queue, d.organization_id order by d.due_at, d.subject) as place_in_chain
        from due d
        join lane l on l.queue = d.queue
        left join job_run r on (r.organization_id, r.queue, r.subject) = (d.organization_id, d.queue, d.subject)
        left join busy b on (b.organization_id, b.queue) = (d.organization_id, d.queue)
       where (r.taken_until is null or r.taken_until <= now())
         and (r.not_before is null or r.not_before <= greatest(${now}::timestamptz, now()))),
    placed as (
      select f.*, row_number() over (partition by queue order by running + place_in_chain, due_at, organization_id) as place
        from free f where running + place_in_chain <= slots_of_chain)
    select organization_id, queue, subject, due_at from placed where place <= slots order by due_at`
  return rows.map((row) => ({ ...keyOf(row), dueAt: row.due_at }))
}

function keyOf({ organization_id, queue, subject }: KeyRow): Key {
  return { organizationId: organization_id, queue, subject }
}

/**
 * Takes a job, unless somebody has it. A taking that was never given back means that its process died: it counts as a
 * failure, so that what kills a process is told of too.
 */
export async function take(
  { prisma }: Database,
  { organizationId, queue, subject }: Key,
  now: Date,
): Promise<Taken | undefined> {
  const takenBy = randomUUID()
  const [run] = await prisma.$queryRaw<{ id: string; failures: number }[]>`
    insert into job_run as r (organization_id, queue, subject, taken_by, taken_until)
    values (${organizationId}::uuid, ${queue}, ${subject}, ${takenBy}::uuid, now() + make_interval(secs => ${TAKEN_FOR_SECONDS}))
    on conflict (organization_id, queue, subject) do update
      set taken_by = excluded.taken_by, taken_until = excluded.taken_until,
          failures = r.failures + (r.taken_until is not null)::int,
          failed_since = case when r.taken_until is null then r.failed_since else coalesce(r.failed_since, ${now}::timestamptz) end,
          last_error = case when r.taken_until is null then r.last_error else 'The process ended while it worked on this' end
      where (r.taken_until is null or r.taken_until <= now())
        and (r.not_before is null or r.not_before <= greatest(${now}::timestamptz, now()))
    returning r.id, r.failures`
  if (!run) return undefined
  // Those of later instants too: the work says itself when it is to be done next.
  const wakeUps = await prisma.$queryRaw<{ id: bigint; due_at: Date }[]>`
    select id, due_at from job
     where organization_id = ${organizationId}::uuid and queue = ${queue} and subject = ${subject} order by due_at`
  const taken = { organizationId, queue, subject, runId: run.id, takenBy, failures: run.failures }
  const [first] = wakeUps
  if (!first || (first.due_at > now && first.due_at > new Date())) {
    // Done by another since it was looked for.
    await giveBack(prisma, taken)
    return undefined
  }
  return { ...taken, wakeUps: wakeUps.map(({ id }) => id), dueAt: first.due_at }
}

async function giveBack(
  prisma: Database['prisma'],
  { runId, takenBy, failures }: Omit<Taken, 'wakeUps' | 'dueAt'>,
) {
  if (failures === 0)
    await prisma.$executeRaw`delete from job_run where id = ${runId}::uuid and taken_by = ${takenBy}::uuid`
  else
    await prisma.$executeRaw`
      update job_run set taken_by = null, taken_until = null where id = ${runId}::uuid and taken_by = ${takenBy}::uuid`
}

/** Says that its work goes on. Answers whether it is still ours. */
export async function stillAtIt({ prisma }: Database, { runId, takenBy }: Taken): Promise<boolean> {
  const count = await prisma.$executeRaw`
    update job_run set taken_until = now() + make_interval(secs => ${TAKEN_FOR_SECONDS})
     where id = ${runId}::uuid and taken_by = ${takenBy}::uuid`
  return count === 1
}

/** It has gone well: what woke it is gone, what came since is kept, and `next` wakes it again. One statement. */
export async function keepDone({ prisma }: Database, taken: Taken, next: Date | null): Promise<void> {
  const { organizationId, queue, subject, takenBy, runId, wakeUps } = taken
  await prisma.$executeRaw`
    with gone as (delete from job where id = any (${wakeUps}::bigint[])),
    over as (delete from job_run where id = ${runId}::uuid and taken_by = ${takenBy}::uuid)
    insert into job (organization_id, queue, subject, due_at)
    select ${organizationId}::uuid, ${queue}, ${subject}, ${next}::timestamptz where ${next}::timestamptz is not null`
}

/** It has failed: what woke it stays, and it waits longer each time. Answers how often it has failed in a row. */
export async function keepFailed(
  { prisma }: Database,
  { runId, takenBy, failures }: Taken,
  error: unknown,
  now: Date,
): Promise<number> {
  const waitSeconds = WAITS_SECONDS[Math.min(failures, WAITS_SECONDS.length - 1)]!
  const notBefore = new Date(now.getTime() + waitSeconds * 1000)
  const said = (error instanceof Error ? error.message : String(error)).slice(0, 500)
  await prisma.$executeRaw`
    update job_run
       set taken_by = null, taken_until = null, failures = failures + 1, failed_since = coalesce(failed_since, ${now}::timestamptz),
           not_before = ${notBefore}::timestamptz, last_error = ${said}
     where id = ${runId}::uuid and taken_by = ${takenBy}::uuid`
  return failures + 1
}

/** When anything of these queues is due next; null: nothing waits. */
export async function nextDue(
  { prisma }: Database,
  queues: readonly string[],
  now: Date,
): Promise<Date | null> {
  const [row] = await prisma.$queryRaw<[{ next: Date | null }]>`
    select min(greatest(j.due_at, r.not_before, r.taken_until)) as next
      from job j left join job_run r on (r.organization_id, r.queue, r.subject) = (j.organization_id, j.queue, j.subject)
     where j.queue = any (${[...queues]}) and greatest(j.due_at, r.not_before, r.taken_until) > ${now}::timestamptz`
  return row.next
}

/** Every chain has a job of this queue that waits, or gets one: at the start, for what begins with time alone. */
export async function wakeEveryChain({ prisma }: Database, queue: string): Promise<void> {
  await prisma.$executeRaw`
    insert into job (organization_id, queue)
    select o.id, ${queue} from organization o
     where not exists (select from job j where j.organization_id = o.id and j.queue = ${queue} and j.subject = '')`
}

/**
 * Only one process has an embedded database, so who had taken something before this start is dead: nobody waits for what
 * they had.
 */
export async function takeOver({ prisma }: Database): Promise<void> {
  await prisma.$executeRaw`update job_run set taken_until = now() where taken_until > now()`
}
