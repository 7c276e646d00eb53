import type { Database } from '../../foundation/database/database.ts'
import { daysBefore, type Forget } from '../../foundation/retention/retention.ts'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS
/** Gone over at one go. */
const SLICE_MS = 7 * DAY_MS
/** Gone over once more: a bond may have been answered for, or a cartridge used up, since its readings came of age. */
const AGAIN_MS = 31 * DAY_MS

/**
 * Thins the readings of the air that came of age: of each thermometer and hour the coldest and the warmest stay. All stay
 * that a record draws on: of a bay from three hours before the adhesive went on until an hour after the bond was released,
 * given up or answered for; of a shelf while anything that lay there is still there to be used. All that was doubted
 * (for more than coming late), corrected or withdrawn stays too.
 */
export const thinReadings: Forget = async (database, { organizationId, keep, now }) => {
  const { prisma } = database
  const endMs = wholeHour(daysBefore(now, keep.allReadingsDays).getTime())
  const throughMs = await doneThrough(database, organizationId)
  if (throughMs === null || throughMs >= endMs) return false
  const untilMs = Math.min(wholeHour(throughMs) + SLICE_MS, endMs)
  const isLast = untilMs === endMs
  const from = new Date(isLast ? Math.min(wholeHour(throughMs), endMs - AGAIN_MS) : wholeHour(throughMs))
  const until = new Date(untilMs)
  await prisma.$transaction([
    prisma.$executeRaw`
      with hourly as (
        select r.sensor_id, r.at, s.resource_id, s.location_id,
               row_number() over (partition by r.sensor_id, r.quality, date_trunc('hour', r.at) order by r.temperature_c, r.at) as coldest,
               row_number() over (partition by r.sensor_id, r.quality, date_trunc('hour', r.at) order by r.temperature_c desc, r.at) as warmest
          from sensor s
          join temperature_reading r on r.sensor_id = s.id and r.at >= ${from}::timestamptz and r.at < ${until}::timestamptz
         where s.organization_id = ${organizationId}::uuid
           and r.quality <> 'withdrawn' and (r.quality = 'good' or r.findings is not null) and r.decision_id is null
           and not exists (select from jsonb_array_elements(r.findings) f where f->>'kind' <> 'late'))
      delete from temperature_reading gone using hourly h
       where gone.sensor_id = h.sensor_id and gone.at = h.at and h.coldest > 1 and h.warmest > 1
         and not exists (
           select from bond b
            where b.organization_id = ${organizationId}::uuid and b.bay_id = h.resource_id and h.at >= b.applied_at - interval '3 hours'
              and (coalesce(b.released_at, b.abandoned_at) is null
                or exists (select from incident i where i.bond_id = b.id and not exists (select from disposition d where d.incident_id = i.id))
                or h.at <= interval '1 hour' + greatest(coalesce(b.released_at, b.abandoned_at),
                     (select max(d.at) from incident i join disposition d on d.incident_id = i.id where i.bond_id = b.id))))
         and not exists (
           select from cartridge_stay y join cartridge c on c.id = y.cartridge_id
            where y.location_id = h.location_id and y.from_at <= h.at and (y.until_at is null or y.until_at > h.at)
              and c.state in ('sealed', 'opened', 'inTransit', 'missing'))`,
    prisma.readingThinning.upsert({
      where: { organizationId },
      create: { organizationId, through: until },
      update: { through: until },
    }),
  ])
  return !isLast
}

/** Null where nothing has been read yet. */
async function doneThrough({ prisma }: Database, organizationId: string): Promise<number | null> {
  const done = await prisma.readingThinning.findUnique({ where: { organizationId } })
  if (done) return done.through.getTime()
  const { _min } = await prisma.temperatureReading.aggregate({
    where: { organizationId },
    _min: { at: true },
  })
  return _min.at?.getTime() ?? null
}

function wholeHour(ms: number): number {
  return Math.floor(ms / HOUR_MS) * HOUR_MS
}
