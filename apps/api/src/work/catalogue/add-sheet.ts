import { message } from '@clampclock/messages'
import { inEnglish } from '../../foundation/words/words.ts'
import { sentences } from '../../foundation/words/params.ts'
import type { BodyOf, productRoutes } from '@clampclock/contracts'
import { dataSheetFaults, sheetQuestions } from '@clampclock/cure'
import type { Tx } from '../../foundation/database/database.ts'
import { dateOf, isoDate } from '../../foundation/http/dates.ts'
import { invalidField, ProblemError } from '../../foundation/problems/problem-error.ts'
import { asked, sheetFault, fieldPath } from './sheet-sentences.ts'
import { APPROVED, figuresOf, newestFirst, withPoints } from './sheets.ts'

export type SheetFigures = BodyOf<typeof productRoutes.addProductSheet>

/**
 * Stores a revision after the cure computation has found nothing wrong with it.
 *
 * @throws {ProblemError} `invalid-request`, with one reason a fault; `sheet-questioned`, with what is doubtful and not
 *   confirmed.
 */
export async function addSheet(
  tx: Tx,
  who: { organizationId: string; recordedBy: string | null; name: string },
  productId: string,
  figures: SheetFigures,
  fieldPrefix: string,
  now: Date,
): Promise<void> {
  const faults = dataSheetFaults(figures).map(({ field, message: text }) => ({
    field,
    what: sheetFault(text),
  }))
  if (faults[0]) {
    throw new ProblemError(
      'invalid-request',
      message('setup-problem.sheetWrong', { what: { message: faults[0].what } }),
      faults.map(({ field, what }) => ({
        code: 'data-sheet',
        field: fieldPath(fieldPrefix, field),
        message: what,
        fix: message('problem.comparePrintFix'),
      })),
    )
  }
  requireDays(figures, fieldPrefix, now)
  const answered = await requireConfirmed(tx, productId, figures, fieldPrefix)
  const { revision } = figures
  const rejected = await tx.productSheet.count({
    where: { productId, revision, decision: { outcome: 'rejected' } },
  })
  const sheet = await tx.productSheet.create({
    data: {
      organizationId: who.organizationId,
      productId,
      revision,
      take: rejected + 1,
      issuedOn: dateOf(figures.issuedOn),
      applicationMinC: figures.applicationRangeC.min,
      applicationMaxC: figures.applicationRangeC.max,
      lowestCureC: figures.lowestCureC,
      highestCureC: figures.highestCureC,
      serviceMinC: figures.serviceRangeC.min,
      serviceMaxC: figures.serviceRangeC.max,
      recordedAt: now,
      recordedBy: who.recordedBy,
      recordedByName: who.name,
      answered,
      validFrom: figures.validFrom === null ? null : dateOf(figures.validFrom),
    },
  })
  await tx.productSheetPoint.createMany({
    data: figures.points.map((point) => ({
      ...point,
      organizationId: who.organizationId,
      sheetId: sheet.id,
    })),
  })
}

/** A maker announces a revision weeks ahead, not years: a day beyond is a slip of the year. */
const MOST_DAYS_AHEAD = 366

function requireDays({ issuedOn, validFrom }: SheetFigures, fieldPrefix: string, now: Date): void {
  // Somewhere it is tomorrow already.
  if (issuedOn > dayAfter(now, 1))
    throw invalidField(
      `${fieldPrefix}issuedOn`,
      message('problem.inFuture'),
      message('setup-problem.printedDayFix'),
    )
  if (validFrom === null) return
  if (validFrom < issuedOn)
    throw invalidField(
      `${fieldPrefix}validFrom`,
      message('setup-problem.beforeIssued'),
      message('setup-problem.validFromFix'),
    )
  if (validFrom > dayAfter(now, MOST_DAYS_AHEAD))
    throw invalidField(
      `${fieldPrefix}validFrom`,
      message('setup-problem.yearAhead'),
      message('setup-problem.lookAtYearFix'),
    )
}

function dayAfter(now: Date, days: number): string {
  return isoDate(new Date(now.getTime() + days * 86_400_000))
}

/** @returns the questions that somebody stands by, each once, in the words in which they were asked. */
async function requireConfirmed(
  tx: Tx,
  productId: string,
  figures: SheetFigures,
  fieldPrefix: string,
): Promise<string[]> {
  // Held against what counts: a proposal that nobody approved is no measure.
  const previous = await tx.productSheet.findFirst({
    where: { productId, ...APPROVED },
    include: withPoints,
    orderBy: newestFirst,
  })
  const questions = sheetQuestions(figures, previous ? figuresOf(previous) : undefined)
  const reasons = asked(questions, figures.confirmed, fieldPrefix)
  if (reasons.length === 0)
    return [...new Set(asked(questions, [], fieldPrefix).map(({ message }) => inEnglish(message)))]
  throw new ProblemError('sheet-questioned', sentences(reasons.map(({ message }) => message)), reasons)
}
