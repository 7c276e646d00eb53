import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { AccuracyC, CalendarDate, Id, Label, Version } from '../foundation/values.ts'

export const InstrumentKind = z.enum(['metalProbe', 'infrared', 'hygrometer']).meta({ id: 'InstrumentKind' })

/** Hand-held: what hangs in a bay for good is a sensor. */
export const Instrument = z
  .object({
    id: Id,
    shopId: Id,
    kind: InstrumentKind,
    name: z.string(),
    serialNumber: z.string(),
    accuracyC: z.number().nullable().describe('Of a thermometer'),
    accuracyPercent: z.number().nullable().describe('Of a hygrometer, percent of relative humidity'),
    calibratedUntil: CalendarDate.nullable().describe('The last day that counts; null: never calibrated'),
    inCalibration: z.boolean().describe('Now, by the calendar of its shop'),
    active: z.boolean(),
    version: Version,
  })
  .meta({ id: 'Instrument' })
export type Instrument = z.output<typeof Instrument>

const AccuracyPercent = z.number().min(0, 'must not be negative').max(30, 'must be at most 30 %')

export const instrumentRoutes = {
  listInstruments: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/instruments',
    operationId: 'listInstruments',
    tag: 'shops',
    summary: 'Hand-held thermometers and hygrometers of a shop, and whether they are in calibration',
    access: 'readShop',
    params: z.object({ shopId: Id }),
    status: 200,
    response: z.object({ items: z.array(Instrument) }),
  }),
  addInstrument: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/instruments',
    operationId: 'addInstrument',
    tag: 'shops',
    summary: 'Add an instrument to the register of a shop',
    access: 'manageChain',
    params: z.object({ shopId: Id }),
    body: z
      .strictObject({
        kind: InstrumentKind,
        name: Label,
        serialNumber: Label,
        accuracyC: AccuracyC.nullable().default(null),
        accuracyPercent: AccuracyPercent.nullable().default(null),
        calibratedUntil: CalendarDate.nullable().default(null),
      })
      .refine((i) => (i.kind === 'hygrometer') === (i.accuracyC === null), {
        path: ['accuracyC'],
        error: 'is needed for a thermometer, and only for one',
      })
      .refine((i) => (i.kind === 'hygrometer') === (i.accuracyPercent !== null), {
        path: ['accuracyPercent'],
        error: 'is needed for a hygrometer, and only for one',
      }),
    status: 201,
    response: Instrument,
  }),
  editInstrument: defineRoute({
    method: 'PATCH',
    path: '/v1/instruments/:instrumentId',
    operationId: 'editInstrument',
    tag: 'shops',
    summary: 'Record a new calibration, rename an instrument, or take it out of use',
    description: 'Readings taken before keep the calibration that held then.',
    access: 'manageChain',
    params: z.object({ instrumentId: Id }),
    body: z.strictObject({
      name: Label.optional(),
      calibratedUntil: CalendarDate.nullable().optional(),
      active: z.boolean().optional(),
    }),
    ifMatch: true,
    status: 200,
    response: Instrument,
  }),
}
