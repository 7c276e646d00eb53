import type { ProductSheet } from '@clampclock/contracts'
import type { DataSheet } from '@clampclock/cure'
import { dateOf, dayIn, isoDate } from '../../foundation/http/dates.ts'
import type {
  Prisma,
  ProductSheet as SheetRow,
  ProductSheetDecision,
  ProductSheetDocument,
  ProductSheetPoint,
} from '../../generated/prisma/client.ts'

export type SheetWithPoints = SheetRow & { productSheetPoints: ProductSheetPoint[] }
export type WholeSheet = SheetWithPoints & {
  decision: ProductSheetDecision | null
  documents: Omit<ProductSheetDocument, 'pdf'>[]
}

/** How a sheet is always read: with its points from cold to warm, and what was decided on it. */
export const withPoints = {
  productSheetPoints: { orderBy: { temperatureC: 'asc' } },
  decision: true,
  documents: { omit: { pdf: true }, orderBy: { recordedAt: 'desc' } },
} satisfies Prisma.ProductSheetInclude

/** The newest revision first: by the day on the sheet, then by the day it was recorded. */
export const newestFirst = [
  { issuedOn: 'desc' },
  { recordedAt: 'desc' },
] satisfies Prisma.ProductSheetOrderByWithRelationInput[]

export const APPROVED = { decision: { outcome: 'approved' } } satisfies Prisma.ProductSheetWhereInput

export function isApproved({ decision }: Pick<WholeSheet, 'decision'>): boolean {
  return decision?.outcome === 'approved'
}

/** A product with every revision that somebody approved, the newest first: `sheetOn` says which of them counts. */
export const withApprovedSheets = {
  productSheets: { where: APPROVED, include: withPoints, orderBy: newestFirst },
} satisfies Prisma.ProductInclude

/**
 * The revision that counts on the calendar day of an instant: the newest that is approved and valid by then.
 *
 * @param sheets The newest first.
 */
export function sheetOn<Sheet extends WholeSheet>(
  sheets: readonly Sheet[],
  at: Date,
  timeZone: string,
): Sheet | undefined {
  return sheets.find((sheet) => countsOn(sheet, at, timeZone))
}

/** Approved, and valid on the calendar day of an instant. */
export function countsOn(sheet: WholeSheet, at: Date, timeZone: string): boolean {
  return isApproved(sheet) && (sheet.validFrom === null || sheet.validFrom <= dateOf(dayIn(at, timeZone)))
}

export function toSheet(row: WholeSheet): ProductSheet {
  const { decision } = row
  return {
    id: row.id,
    revision: row.revision,
    issuedOn: isoDate(row.issuedOn),
    validFrom: row.validFrom && isoDate(row.validFrom),
    recordedAt: row.recordedAt,
    recordedBy: row.recordedByName,
    recordedById: row.recordedBy,
    answered: row.answered,
    approval:
      decision?.outcome === 'approved'
        ? { at: decision.decidedAt, by: decision.decidedByName, secondLook: decision.secondLook }
        : null,
    documents: row.documents.map(({ id, name, bytes, sha256, recordedAt, recordedByName }) => ({
      id,
      name,
      bytes,
      sha256,
      at: recordedAt,
      by: recordedByName,
    })),
    rejection:
      decision?.outcome === 'rejected'
        ? { at: decision.decidedAt, by: decision.decidedByName, reason: decision.reason }
        : null,
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
