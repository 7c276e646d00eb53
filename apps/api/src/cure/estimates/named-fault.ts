import { asTold } from '../../foundation/words/from-text.ts'
import { sheetFault } from '../../work/index.ts'
import { message } from '@clampclock/messages'
import { sentences } from '../../foundation/words/params.ts'
import type { ProblemReason } from '@clampclock/contracts'
import { dataSheetFaults, type DataSheet } from '@clampclock/cure'
import { ProblemError } from '../../foundation/problems/problem-error.ts'

/**
 * Runs a computation of the packages. Their `RangeError` begins with the field at fault; it becomes `invalid-request`
 * with that field as the caller knows it.
 *
 * @param part What the sentence's field belongs to: the body, or the part of it at `within` (`'run.'`).
 * @param names The package's name of a field, where the request has another.
 * @throws {ProblemError} `invalid-request`; any other error as it is.
 */
export function computed<Result>(
  part: object,
  names: Readonly<Record<string, string>>,
  compute: () => Result,
  within = '',
): Result {
  try {
    return compute()
  } catch (error) {
    const field = error instanceof RangeError ? fieldOf(error.message, part, names) : undefined
    if (field === undefined) throw error
    throw refused([
      { code: 'invalid', field: `body.${within}${field}`, message: asTold((error as RangeError).message) },
    ])
  }
}

/** @throws {ProblemError} `invalid-request`, with one reason for each fault of each sheet. */
export function requireSheets(sheets: Readonly<Record<string, DataSheet>>): void {
  const reasons = Object.entries(sheets).flatMap(([at, sheet]) =>
    dataSheetFaults(sheet).map(({ field, message: text }) => ({
      code: 'data-sheet',
      field: `body.${at}.${dotted(field)}`,
      message: sheetFault(text),
      fix: message('problem.comparePrintFix'),
    })),
  )
  if (reasons.length > 0) throw refused(reasons)
}

function refused(reasons: ProblemReason[]): ProblemError {
  return new ProblemError('invalid-request', sentences(reasons.map((each) => each.message)), reasons)
}

/** Undefined when the sentence names no field of the request: then the fault is ours, not the caller's. */
function fieldOf(message: string, part: object, names: Readonly<Record<string, string>>): string | undefined {
  const named = /^[A-Za-z][\w.[\]]*/.exec(message)?.[0]
  if (named === undefined) return undefined
  const field = dotted(named)
  const known = names[field] ?? field.replace(/\.atMs$/, '.at')
  return known.split('.', 1)[0]! in part ? known : undefined
}

/** `points[0].minutes` as the problems have it: `points.0.minutes`. */
function dotted(field: string): string {
  return field.replaceAll(/\[(\d+)\]/g, '.$1')
}
