import { message } from '@clampclock/messages'
import { HumidityPercent, Instant, TemperatureC, type ProblemReason } from '@clampclock/contracts'
import { CsvError, parse } from 'csv-parse/sync'
import type { Range } from '@clampclock/quantities'
import * as z from 'zod'
import { firstOf, ProblemError } from '../../foundation/problems/problem-error.ts'
import { fieldSentence } from '../../foundation/http/field-words.ts'
import { airFault } from './room-air.ts'

export interface Reading {
  readonly at: Date
  readonly temperatureC: number
  readonly relativeHumidityPercent: number | null
}

/** Lines of a logger that was read out once a month; more are sent in parts. */
const MOST_LINES = 20_000
/** A file from the wrong logger has a fault in each line: a few say so. */
export const MOST_FAULTS = 20

const number = z.string().trim().min(1, 'must not be empty').transform(Number)
const Row = z
  .object({
    at: z.string().trim().pipe(Instant),
    temperatureC: number.pipe(TemperatureC).optional(),
    temperatureF: number
      .transform((f) => (f - 32) / 1.8)
      .pipe(TemperatureC)
      .optional(),
    relativeHumidityPercent: z
      .string()
      .trim()
      .transform((text) => (text === '' ? null : Number(text)))
      .pipe(HumidityPercent.nullable())
      .optional(),
  })
  .refine((row) => (row.temperatureC === undefined) !== (row.temperatureF === undefined), {
    path: ['temperatureC'],
    error: 'give temperatureC or temperatureF, one of them',
  })

/**
 * Reads a table of readings: a heading with `at`, `temperatureC` or `temperatureF`, and `relativeHumidityPercent` where
 * there is any; further columns are passed over. Comma or semicolon, in any order of lines.
 *
 * @param range What a thermometer may read where this one hangs, degC.
 * @throws {ProblemError} `invalid-request`, with the line of each fault.
 */
export function readReadings(csv: string, range: Range): Reading[] {
  const lines = parseTable(csv)
  if (lines.length === 0)
    throw refused([{ code: 'empty', field: 'body.csv', message: message('problem.onlyHeading') }])
  if (lines.length > MOST_LINES)
    throw refused([
      {
        code: 'too-long',
        field: 'body.csv',
        message: message('problem.tooManyLines', { most: MOST_LINES }),
        fix: message('problem.inPartsFix'),
      },
    ])
  const faults: ProblemReason[] = []
  const readings: Reading[] = []
  for (const { record, info } of lines) {
    const parsed = Row.safeParse(record)
    if (parsed.success) {
      const { at, temperatureC, temperatureF, relativeHumidityPercent = null } = parsed.data
      const c = temperatureC ?? temperatureF!
      const fault = airFault(c, range, 'body.csv')
      if (fault) {
        const what = { message: fault.message }
        const said = { line: info.lines, field: namedAs(parsed.data), what }
        faults.push({ ...fault, message: message('problem.lineField', said) })
      }
      readings.push({ at, temperatureC: c, relativeHumidityPercent })
    } else
      faults.push(
        ...parsed.error.issues.map((issue) => ({
          code: 'invalid',
          field: 'body.csv',
          message: message('problem.lineField', {
            line: info.lines,
            field: issue.path.join('.'),
            what: { message: fieldSentence(issue.message) },
          }),
        })),
      )
    if (faults.length >= MOST_FAULTS) break
  }
  if (faults.length > 0) throw refused(faults)
  return readings
}

function namedAs({ temperatureC }: { readonly temperatureC?: number | undefined }): string {
  return temperatureC === undefined ? 'temperatureF' : 'temperatureC'
}

function parseTable(csv: string): { record: Record<string, string>; info: { lines: number } }[] {
  try {
    return parse(csv, {
      bom: true,
      columns: true,
      delimiter: [',', ';'],
      info: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as { record: Record<string, string>; info: { lines: number } }[]
  } catch (error) {
    if (error instanceof CsvError)
      throw refused([
        {
          code: 'malformed',
          field: 'body.csv',
          message: message('problem.noTable', { what: error.message }),
        },
      ])
    throw error
  }
}

function refused(reasons: readonly ProblemReason[]): ProblemError {
  return new ProblemError('invalid-request', firstOf(reasons), reasons)
}
