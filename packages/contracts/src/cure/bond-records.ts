import { ExpiryLimit } from '../work/expiry-limit.ts'
import * as z from 'zod'
import { saidOfEach, Words, saidOf, WordsOrText } from '../foundation/words.ts'
import { BondCurve } from './bond-curves.ts'
import { Bond } from './bond.ts'
import { PreparationStep } from './bonds.ts'
import { QualifiedClass } from '../work/qualifications.ts'
import { SafetyClass } from './repairs.ts'
import { defineRoute } from '../foundation/route.ts'
import { CalendarDate, Id, Instant } from '../foundation/values.ts'

/** An instrument as it stood when it was used. */
export const RecordedInstrument = z
  .object({
    name: z.string(),
    serialNumber: z.string(),
    calibratedUntil: CalendarDate.nullable(),
    inCalibration: z.boolean(),
  })
  .meta({ id: 'RecordedInstrument' })

export const RecordedQualification = z
  .object({
    safetyClass: QualifiedClass,
    evidence: z.string(),
    issuedOn: CalendarDate,
    validUntil: CalendarDate,
  })
  .meta({ id: 'RecordedQualification' })

/** What was known when the adhesive left the nozzle: nothing that is edited later changes it. */
export const RecordedApplication = z
  .object({
    by: z.string(),
    vehicle: z.string(),
    repairOrderNumber: z.string(),
    // Bonds from before these were kept have none.
    vin: z.string().nullable().default(null),
    plate: z.string().nullable().default(null),
    jointName: z.string(),
    attempt: z.number().int(),
    safetyClass: SafetyClass,
    procedure: z.object({ document: z.string(), revision: z.string(), lookedUpOn: CalendarDate }).nullable(),
    qualification: RecordedQualification.nullable().describe('null: none that covers the class'),
    product: z.object({
      name: z.string(),
      sheetRevision: z.string(),
      sheetIssuedOn: CalendarDate,
      sheetApproval: z
        .object({ at: Instant, by: z.string() })
        .nullable()
        .optional()
        .describe(
          'Who had approved the sheet; null where nobody had, left out where it was not recorded yet',
        ),
    }),
    cartridges: z.array(
      z.object({
        code: z.string(),
        lotNumber: z.string(),
        amountMl: z.number().describe('As it was told'),
        bookedMl: z
          .number()
          .optional()
          .describe(
            'What went off it in stock: less than was told where it no longer held that much, 0 where it was not there; left out where it was not recorded yet',
          ),
        printedExpiry: CalendarDate,
        effectiveExpiryAt: Instant,
        expiryReason: WordsOrText,
        said: saidOf('expiryReason'),
        life: z
          .object({
            limit: ExpiryLimit,
            timeZone: z.string(),
            openedAt: Instant.nullable(),
            openLifeDays: z.number(),
            warmStorageLossMs: z.number(),
          })
          .optional()
          .describe('What the expiry follows from; left out where it was not recorded yet'),
      }),
    ),
    // Bonds from before the need was kept have none.
    amount: z
      .object({
        neededMl: z.number(),
        shortBecause: z.string().nullable().describe('Why less went on, by who applied it; null: enough did'),
      })
      .nullable()
      .default(null),
    dispenser: z.string(),
    bay: z.string().nullable(),
    prepared: z
      .object({ surfaces: z.boolean(), dryFit: z.boolean(), skimCoat: z.boolean() })
      .describe('The word of who applied it, then'),
    preparation: z
      .array(PreparationStep)
      .nullable()
      .default(null)
      .describe('The same step by step; null where it was not told so'),
    panel: z.object({
      temperatureC: z.number(),
      accuracyC: z.number(),
      source: z.enum(['metalProbe', 'infrared']),
      instrument: RecordedInstrument.nullable(),
    }),
    air: z.object({
      temperatureC: z.number(),
      relativeHumidityPercent: z.number(),
      dewPointC: z.number(),
      hygrometer: RecordedInstrument.nullable(),
    }),
  })
  .meta({ id: 'RecordedApplication' })
export type RecordedApplication = z.output<typeof RecordedApplication>

export const RecordEntryKind = z
  .enum([
    'applied',
    'reading',
    'readingWithdrawn',
    'slid',
    'placed',
    'clamped',
    'released',
    'abandoned',
    'incident',
    'inspection',
    'disposition',
    'vehicleCorrected',
    'photoAdded',
    'noteAdded',
    'attachmentWithdrawn',
  ])
  .meta({ id: 'RecordEntryKind' })
export type RecordEntryKind = z.output<typeof RecordEntryKind>

export const RecordEntry = z
  .object({
    sequence: z.number().int().describe('In the chain of the shop'),
    kind: RecordEntryKind,
    at: Instant,
    recordedAt: Instant,
    by: z.string(),
    reason: WordsOrText.nullable().describe('Why, in words; as it was written where a person wrote it'),
    said: saidOf('reason'),
    facts: z.record(z.string(), z.unknown()).describe('As they were written down then'),
    hash: z.string(),
    previousHash: z.string(),
  })
  .meta({ id: 'RecordEntry' })
export type RecordEntry = z.output<typeof RecordEntry>

export const BondRecord = z
  .object({
    bond: Bond,
    application: RecordedApplication.nullable().describe(
      'null for a bond that was made before records were chained',
    ),
    curve: BondCurve,
    entries: z.array(RecordEntry),
    chain: z
      .object({
        intact: z.boolean(),
        fault: Words.nullable(),
        said: saidOf('fault'),
        head: z
          .object({ sequence: z.number().int(), hash: z.string() })
          .nullable()
          .describe(
            "The latest entry of the shop's chain: kept elsewhere, it shows whether the chain is rewritten later",
          ),
      })
      .describe(
        "Over this bond's entries and what its tables hold; `npm run records:verify` goes over all of them",
      ),
    cautions: z.array(Words),
    said: saidOfEach('cautions'),
  })
  .meta({ id: 'BondRecord' })
export type BondRecord = z.output<typeof BondRecord>

const bondParams = z.object({ bondId: Id })

export const bondRecordRoutes = {
  getBondRecord: defineRoute({
    method: 'GET',
    path: '/v1/bonds/:bondId/record',
    operationId: 'getBondRecord',
    tag: 'bonds',
    summary: 'Everything that proves how a bond was made, as it was known then',
    access: 'readShop',
    params: bondParams,
    status: 200,
    response: BondRecord,
  }),
  getBondRecordPdf: defineRoute({
    method: 'GET',
    path: '/v1/bonds/:bondId/record.pdf',
    operationId: 'getBondRecordPdf',
    tag: 'bonds',
    summary: 'The bond record to print, in the time and units of its shop',
    access: 'readShop',
    params: bondParams,
    status: 200,
    mediaType: 'application/pdf',
    response: z.string().meta({ format: 'binary' }),
  }),
}
