import type { BodyOf, ProductSheet, productRoutes } from '@clampclock/contracts'
import { dataSheetFaults, sheetQuestions, type DataSheet } from '@clampclock/cure'
import { ProblemError } from '../http/problem-error.ts'
import { dateOf, isoDate } from '../http/dates.ts'
import type { Tx } from '../database/database.ts'
import { asked, fieldPath } from './sheet-sentences.ts'
import type { Prisma, ProductSheet as SheetRow, ProductSheetPoint } from '../generated/prisma/client.ts'

export type SheetFigures = BodyOf<typeof productRoutes.addProductSheet>
export type SheetWithPoints = SheetRow & { productSheetPoints: ProductSheetPoint[] }

/** How a sheet is always read: with its points from cold to warm. */
export const withPoints = {
  productSheetPoints: { orderBy: { temperatureC: 'asc' } },
} satisfies Prisma.ProductSheetInclude

/** The newest revision first: by the day on the sheet, then by the day it was recorded. */
export const newestFirst = [
  { issuedOn: 'desc' },
  { recordedAt: 'desc' },
] satisfies Prisma.ProductSheetOrderByWithRelationInput[]

/** A product with the one sheet that counts: the newest. */
export const withNewestSheet = {
  productSheets: { include: withPoints, orderBy: newestFirst, take: 1 },
} satisfies Prisma.ProductInclude

/**
 * Stores a revision after the cure computation has found nothing wrong with it.
 *
 * @throws {ProblemError} `invalid-request`, with one reason a fault; `sheet-questioned`, with what is doubtful and not
 *   confirmed.
 */
export async function addSheet(
  tx: Tx,
  who: { organizationId: string; recordedBy: string | null },
  productId: string,
  figures: SheetFigures,
  fieldPrefix: string,
  now: Date,
): Promise<void> {
  const faults = dataSheetFaults(figures)
  if (faults.length > 0) {
    throw new ProblemError(
      'invalid-request',
      `The data sheet cannot be right: ${faults[0]?.message}`,
      faults.map(({ field, message }) => ({
        code: 'data-sheet',
        field: fieldPath(fieldPrefix, field),
        message,
        fix: 'Compare with the printed sheet',
      })),
    )
  }
  await requireConfirmed(tx, productId, figures, fieldPrefix)
  const sheet = await tx.productSheet.create({
    data: {
      organizationId: who.organizationId,
      productId,
      revision: figures.revision,
      issuedOn: dateOf(figures.issuedOn),
      applicationMinC: figures.applicationRangeC.min,
      applicationMaxC: figures.applicationRangeC.max,
      lowestCureC: figures.lowestCureC,
      highestCureC: figures.highestCureC,
      serviceMinC: figures.serviceRangeC.min,
      serviceMaxC: figures.serviceRangeC.max,
      recordedAt: now,
      recordedBy: who.recordedBy,
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

async function requireConfirmed(
  tx: Tx,
  productId: string,
  figures: SheetFigures,
  fieldPrefix: string,
): Promise<void> {
  const previous = await tx.productSheet.findFirst({
    where: { productId },
    include: withPoints,
    orderBy: newestFirst,
  })
  const questions = sheetQuestions(figures, previous ? figuresOf(previous) : undefined)
  const reasons = asked(questions, figures.confirmed, fieldPrefix)
  if (reasons.length === 0) return
  throw new ProblemError('sheet-questioned', reasons.map(({ message }) => message).join('. '), reasons)
}

export function toSheet(row: SheetWithPoints): ProductSheet {
  return {
    id: row.id,
    revision: row.revision,
    issuedOn: isoDate(row.issuedOn),
    recordedAt: row.recordedAt,
    ...figuresOf(row),
  }
}

/** The sheet as the cure computation takes it. */
export function figuresOf(
  row: SheetWithPoints,
): DataSheet & Pick<ProductSheet, 'points' | 'applicationRangeC' | 'serviceRangeC'> {
  return {
    points: row.productSheetPoints.map(
      ({ temperatureC, workTimeMinutes, handlingTimeMinutes, fullCureMinutes }) => ({
        temperatureC,
        workTimeMinutes,
        handlingTimeMinutes,
        fullCureMinutes,
      }),
    ),
    applicationRangeC: { min: row.applicationMinC, max: row.applicationMaxC },
    lowestCureC: row.lowestCureC,
    highestCureC: row.highestCureC,
    serviceRangeC: { min: row.serviceMinC, max: row.serviceMaxC },
  }
}
