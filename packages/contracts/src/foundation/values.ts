import { PLAUSIBLE_TEMPERATURE_C, ROOM_AIR_C } from '@clampclock/quantities'
import * as z from 'zod'

/** An instant: ISO 8601 with an offset on the wire, a `Date` in the server's code. */
export const Instant = z
  .codec(
    z.iso.datetime({
      offset: true,
      error: 'must be an instant with an offset, such as 2031-05-04T08:30:00Z',
    }),
    z.date(),
    {
      decode: (text, context) => {
        // A logger without a clock sends the first instant that its language knows. Asked of what comes in alone: what is
        // on file must be told all the same.
        if (text < '1900')
          context.issues.push({
            code: 'custom',
            input: text,
            message: 'must not be before 1900: is the clock of the device set?',
          })
        return new Date(text)
      },
      encode: (date) => date.toISOString(),
    },
  )
  .meta({ example: '2031-05-04T08:30:00Z' })

/** A calendar day without a time: `2031-05-31`. It counts to its end in the shop's own time zone. */
export const CalendarDate = z.iso.date({ error: 'must be a date such as 2031-05-31' })

export const Id = z.uuid({ error: 'must be a UUID' })

/** Names and short labels: trimmed, never empty, never a paragraph. */
export const Label = z
  .string()
  .trim()
  .min(1, 'must not be empty')
  .max(120, 'must be at most 120 characters')
  .refine(noControl, 'must not contain control characters')
export const Note = z
  .string()
  .trim()
  .max(2000, 'must be at most 2000 characters')
  .refine(noNul, 'must not contain the NUL character')
/** A reason that is kept for ever: long enough to mean something to a reader next year. */
export const Reason = Note.min(5, 'write a reason of at least 5 characters')

/** PostgreSQL text cannot hold NUL, and a control character in a label is a scanner's mistake. */
function noControl(text: string): boolean {
  // oxlint-disable-next-line no-control-regex -- control characters are what is refused
  return !/[\u0000-\u001f\u007f]/.test(text)
}
function noNul(text: string): boolean {
  return !text.includes('\u0000')
}

/** A temperature a shop's thermometer can show, degC: a probe outside it is broken or in another unit. */
export const TemperatureC = z
  .number()
  .min(PLAUSIBLE_TEMPERATURE_C.min, `must be at least ${PLAUSIBLE_TEMPERATURE_C.min} degC`)
  .max(PLAUSIBLE_TEMPERATURE_C.max, `must be at most ${PLAUSIBLE_TEMPERATURE_C.max} degC`)
/** The air where people work, degC; an oven's own air may be as hot as `TemperatureC`. */
export const RoomAirC = z
  .number()
  .min(ROOM_AIR_C.min, `must be at least ${ROOM_AIR_C.min} degC`)
  .max(ROOM_AIR_C.max, `must be at most ${ROOM_AIR_C.max} degC: is it in degF?`)
export const AccuracyC = z.number().min(0, 'must not be negative').max(20, 'must be at most 20 degC')
export const HumidityPercent = z.number().min(0.1, 'must be at least 0.1 %').max(100, 'must be at most 100 %')
export const Minutes = z.number().positive('must be above 0').max(100_000, 'must be at most 100000 minutes')
export const Millilitres = z.number().min(0, 'must not be negative').max(5_000, 'must be at most 5000 mL')

export const RangeC = z
  .strictObject({ min: TemperatureC, max: TemperatureC })
  .refine((range) => range.min < range.max, { path: ['max'], error: 'must be above min' })
  .meta({ id: 'RangeC' })

/** One value for each line: sensors and forecast on their warm side, as they are, on their cold side. */
export const threeOf = <Value extends z.ZodType>(value: Value) =>
  z.object({ earliest: value, expected: value, conservative: value })

export const TimeZone = z
  .string()
  .max(64)
  .refine(isTimeZone, 'must be an IANA time zone such as America/Denver')

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name })
    return true
  } catch {
    return false
  }
}

/** Query strings carry text; a list may come once or many times. */
export const Flag = z.enum(['true', 'false']).transform((text) => text === 'true')

export const PageQuery = z.strictObject({
  limit: z.coerce.number().int().min(1).max(500).default(100),
  cursor: z.string().max(200).optional().describe('`nextCursor` of the page before'),
})

export function pageOf<Item extends z.ZodType>(item: Item) {
  return z.object({ items: z.array(item), nextCursor: z.string().nullable() })
}

/** Increases by one with each edit; send it back in If-Match as `"3"`. */
export const Version = z.number().int().min(1)
