import type { Database } from '../database/database.ts'

/** How far behind a queue is. */
export interface Backlog {
  /** Due and not begun. */
  readonly waiting: number
  /** What has waited longest, s. */
  readonly oldestSeconds: number
  /** Those whose last try failed; they are tried again. */
  readonly failing: number
}

/** Of every queue that anything waits in, now or later. */
export async function backlogs({ prisma }: Database, now: Date): Promise<Record<string, Backlog>> {
  const rows = await prisma.$queryRaw<{ queue: string; waiting: bigint; oldest: number; failing: bigint }[]>`
    with due as (
      select j.organization_id, j.queue, j.subject, min(j.due_at) as due_at from job j
        left join job_run r on (r.organization_id, r.queue, r.subject) = (j.organization_id, j.queue, j.subject)
       where j.due_at <= greatest(${now}::timestamptz, now()) and (r.taken_until is null or r.taken_until <= now())
       group by 1, 2, 3)
    select q.queue, (select count(*) from due d where d.queue = q.queue) as waiting,
           coalesce((select extract(epoch from greatest(${now}::timestamptz, now()) - min(d.due_at)) from due d where d.queue = q.queue), 0)::float8 as oldest,
           (select count(*) from job_run r where r.queue = q.queue and r.failures > 0) as failing
      from (select queue from job union select queue from job_run) as q order by 1`
  return Object.fromEntries(
    rows.map(({ queue, waiting, oldest, failing }) => [
      queue,
      { waiting: Number(waiting), oldestSeconds: Math.round(oldest), failing: Number(failing) },
    ]),
  )
}
