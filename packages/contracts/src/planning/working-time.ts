import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { CalendarDate, Id, Instant, Note } from '../foundation/values.ts'

/** A time of day on the shop's own clock; `24:00` is the end of the day. */
export const ClockTime = z
  .string()
  .regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, 'must be a time of day such as 07:30, at most 24:00')
  .meta({ example: '07:30' })

const Hours = { from: ClockTime, until: ClockTime }

export const WorkShift = z
  .strictObject({
    weekday: z.number().int().min(1).max(7).describe('1 is Monday, 7 is Sunday'),
    ...Hours,
  })
  .refine((shift) => shift.from < shift.until, { path: ['until'], error: 'must be after from' })
  .meta({ id: 'WorkShift' })
export type WorkShift = z.output<typeof WorkShift>

export const WorkingHours = z
  .object({
    resourceId: Id.nullable().describe('null: the shop, and everybody without hours of their own'),
    shifts: z.array(WorkShift).describe('What lies between two shifts of a day is a break'),
  })
  .meta({ id: 'WorkingHours' })
export type WorkingHours = z.output<typeof WorkingHours>

export const DayExceptionKind = z
  .enum(['closed', 'absent', 'overtime'])
  .describe(
    'closed: nobody works. absent: a person is away, or a bay or oven is out of use. overtime: work beyond the week',
  )
  .meta({ id: 'DayExceptionKind' })

const exceptionFacts = {
  resourceId: Id.nullable().describe('null: the whole shop'),
  kind: DayExceptionKind,
  firstDay: CalendarDate,
  lastDay: CalendarDate.describe('The exception holds to the end of this day'),
  from: ClockTime.nullable().describe('On each of the days; null: the whole day'),
  until: ClockTime.nullable(),
  note: Note,
}

export const DayException = z.object({ id: Id, shopId: Id, ...exceptionFacts }).meta({ id: 'DayException' })
export type DayException = z.output<typeof DayException>

const NewDayException = z
  .strictObject({
    ...exceptionFacts,
    resourceId: exceptionFacts.resourceId.default(null),
    from: exceptionFacts.from.default(null),
    until: exceptionFacts.until.default(null),
    note: Note.default(''),
  })
  .refine((e) => e.firstDay <= e.lastDay, { path: ['lastDay'], error: 'must not be before firstDay' })
  .refine((e) => Date.parse(e.lastDay) - Date.parse(e.firstDay) <= 366 * 86_400_000, {
    path: ['lastDay'],
    error: 'must be at most a year after firstDay',
  })
  .refine((e) => (e.from === null) === (e.until === null), {
    path: ['until'],
    error: 'goes together with from',
  })
  .refine((e) => e.from === null || e.until === null || e.from < e.until, {
    path: ['until'],
    error: 'must be after from',
  })
  .refine((e) => e.kind !== 'closed' || e.resourceId === null, {
    path: ['resourceId'],
    error: 'is not for a closed shop: use absent for a person, a bay or an oven',
  })
  .refine((e) => e.kind !== 'absent' || e.resourceId !== null, {
    path: ['resourceId'],
    error: 'must name who or what is absent',
  })
  .refine((e) => e.kind !== 'overtime' || e.from !== null, {
    path: ['from'],
    error: 'is needed for overtime: from when until when',
  })

const shopParams = z.object({ shopId: Id })

export const workingTimeRoutes = {
  listWorkingHours: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/workingHours',
    operationId: 'listWorkingHours',
    tag: 'planning',
    summary: "A shop's working week, and that of everybody who has one of their own",
    access: 'readShop',
    params: shopParams,
    status: 200,
    response: z.object({ items: z.array(WorkingHours) }),
  }),
  setWorkingHours: defineRoute({
    method: 'PUT',
    path: '/v1/shops/:shopId/workingHours',
    operationId: 'setWorkingHours',
    tag: 'planning',
    summary: 'Set the working week of the shop or of one person',
    description: 'Replaces what was there. No shifts at all for a person: the hours of the shop hold again.',
    access: 'planWork',
    params: shopParams,
    body: z.strictObject({ resourceId: Id.nullable().default(null), shifts: z.array(WorkShift).max(50) }),
    status: 200,
    response: WorkingHours,
  }),
  listDayExceptions: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/dayExceptions',
    operationId: 'listDayExceptions',
    tag: 'planning',
    summary: 'Closed days, absences and overtime that end on or after a day',
    access: 'readShop',
    params: shopParams,
    query: z.strictObject({ from: CalendarDate.optional() }),
    status: 200,
    response: z.object({ items: z.array(DayException) }),
  }),
  addDayException: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/dayExceptions',
    operationId: 'addDayException',
    tag: 'planning',
    summary: 'Close the shop, note an absence, or allow overtime',
    access: 'planWork',
    params: shopParams,
    body: NewDayException,
    status: 201,
    response: DayException,
  }),
  addAbsence: defineRoute({
    method: 'POST',
    path: '/v1/resources/:resourceId/absences',
    operationId: 'addAbsence',
    tag: 'planning',
    summary: 'A bay or oven fails, or somebody is away, from one instant to another',
    description: 'Kept as one day exception for each part of a day and for the whole days between.',
    access: 'planWork',
    params: z.object({ resourceId: Id }),
    body: z
      .strictObject({ from: Instant, until: Instant, note: Note.default('') })
      .refine((a) => a.from < a.until, { path: ['until'], error: 'must be after from' })
      // It runs even where an instant is none, and is still a text then.
      .refine((a) => !(Number(a.until) - Number(a.from) > 366 * 86_400_000), {
        path: ['until'],
        error: 'must be at most a year after from',
      }),
    answer: 'The exceptions that it came to, one for each piece of a day',
    status: 201,
    response: z.object({ items: z.array(DayException) }),
  }),
  removeDayException: defineRoute({
    method: 'DELETE',
    path: '/v1/dayExceptions/:exceptionId',
    operationId: 'removeDayException',
    tag: 'planning',
    summary: 'Take back a closed day, an absence or overtime',
    access: 'planWork',
    params: z.object({ exceptionId: Id }),
    status: 204,
    response: z.null(),
  }),
}
