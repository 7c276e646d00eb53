import * as z from 'zod'
import { BakeProgram, OvenWindow } from './bakes.ts'
import { BondEstimate, ReadingSource, ReadyInstant } from './bond.ts'
import { CALCULATION_EXAMPLES as EXAMPLES } from './calculation-examples.ts'
import { Help, wish } from './help.ts'
import { SheetFigures } from '../work/products.ts'
import { PanelMaterial } from './repairs.ts'
import { defineRoute } from '../foundation/route.ts'
import {
  AccuracyC,
  CalendarDate,
  HumidityPercent,
  Instant,
  Label,
  Millilitres,
  Minutes,
  TemperatureC,
  threeOf,
  TimeZone,
} from '../foundation/values.ts'

const { points, applicationRangeC, lowestCureC, highestCureC, serviceRangeC } = SheetFigures.shape
const Sheet = z.strictObject({ points, applicationRangeC, lowestCureC, highestCureC, serviceRangeC })

const Zone = TimeZone.default('UTC').describe('For the instants in sentences')

/** Readings and forecast of one bond: the most that a request may carry is a month of them, a few minutes apart. */
const cureHistory = {
  sheet: Sheet,
  appliedAt: Instant.describe('When the adhesive left the nozzle'),
  asOf: Instant.describe('Now; what was read later is left out'),
  readings: z
    .array(
      z.strictObject({
        at: Instant,
        temperatureC: TemperatureC,
        accuracyC: AccuracyC.default(1),
        source: ReadingSource,
      }),
    )
    .max(5000, 'send at most 5000 readings')
    .describe('In order of time, one for an instant'),
  forecast: z
    .array(z.strictObject({ at: Instant, lowC: TemperatureC, expectedC: TemperatureC, highC: TemperatureC }))
    .max(1000, 'send at most 1000 points')
    .default([])
    .describe('Bay air from now on, in order of time'),
  panelTauMinutes: Minutes.nullable()
    .default(null)
    .describe(
      'Time constant with which the panel follows bay air by its own figures; null: not known, so the outer lines take any plausible one',
    ),
  timeZone: Zone,
}

const Share = z.number().min(0, 'must not be negative').max(0.9, 'must be at most 0.9')
const Millimetres = z.number().min(0, 'must not be negative').max(100_000, 'must be at most 100000 mm')

const bead = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('round'), diameterMm: Millimetres }),
  z.strictObject({ shape: z.literal('triangular'), widthMm: Millimetres, heightMm: Millimetres }),
])

export const calculationRoutes = {
  calculateCure: defineRoute({
    method: 'POST',
    path: '/v1/calculations/cure',
    operationId: 'calculateCure',
    tag: 'calculations',
    summary: 'When may it be moved? Three ready times over any temperature history',
    access: 'signedIn',
    body: z.strictObject(cureHistory).meta({ example: EXAMPLES.cure }),
    status: 200,
    response: BondEstimate,
  }),
  calculateWhatWouldHelp: defineRoute({
    method: 'POST',
    path: '/v1/calculations/whatWouldHelp',
    operationId: 'calculateWhatWouldHelp',
    tag: 'calculations',
    summary: 'How warm must it be kept, to be ready by then?',
    access: 'signedIn',
    body: z
      .strictObject({
        ...cureHistory,
        ...wish,
        isClosed: z
          .boolean()
          .default(false)
          .describe('Clamped already; while it may be open, heat takes work time away'),
        vehicleLimitC: TemperatureC.optional().describe("The vehicle's own limit for its metal"),
        otherSheets: z
          .array(Sheet)
          .max(20)
          .default([])
          .describe('Of other products on the vehicle that get warm as well'),
      })
      .meta({ example: EXAMPLES.whatWouldHelp }),
    status: 200,
    response: Help,
  }),
  calculateOven: defineRoute({
    method: 'POST',
    path: '/v1/calculations/oven',
    operationId: 'calculateOven',
    tag: 'calculations',
    summary: 'May this be baked, how long does it take, and what does it give?',
    access: 'signedIn',
    body: z
      .strictObject({
        program: BakeProgram,
        moveAt: Instant,
        metalStartC: TemperatureC,
        panels: z
          .array(
            z.strictObject({
              name: Label,
              tauMinutes: Minutes,
              coolingTauMinutes: Minutes.optional().describe('As in the oven when left out'),
            }),
          )
          .min(1, 'give at least one panel')
          .max(50),
        bonds: z
          .array(
            z.strictObject({
              joint: Label,
              product: Label,
              sheet: Sheet,
              panel: Label.describe('One of panels'),
              handlingReadyAt: ReadyInstant.describe('Conservative'),
              fullCureProgress: threeOf(z.number().min(0).max(1000)).default({
                earliest: 0,
                expected: 0,
                conservative: 0,
              }),
            }),
          )
          .max(50)
          .default([]),
        vehicleLimitC: TemperatureC.optional().describe("The vehicle's own limit for its metal"),
        timeZone: Zone,
      })
      .meta({ example: EXAMPLES.oven }),
    status: 200,
    response: OvenWindow,
  }),
  calculatePanelHeat: defineRoute({
    method: 'POST',
    path: '/v1/calculations/panelHeat',
    operationId: 'calculatePanelHeat',
    tag: 'calculations',
    summary: 'How fast does this panel follow the air?',
    description:
      'Lumped capacitance: refused as `notLumped` from a Biot number of 0.1 on, where one temperature for the panel is wrong. A table gives a lower bound: braces and clamps slow a real panel.',
    access: 'signedIn',
    body: z
      .strictObject({
        layers: z
          .array(
            z.strictObject({
              material: z.enum([...PanelMaterial.options, 'curedAdhesive']),
              thicknessMm: Millimetres,
            }),
          )
          .min(1, 'give at least one layer')
          .max(20),
        sidesHeated: z.union([z.literal(1), z.literal(2)]),
        heatTransferWPerM2K: z
          .number()
          .min(0.1)
          .max(1000)
          .describe('Still air 2 to 25, moving air 25 to 250 W/(m2 K); radiation comes on top'),
        run: z
          .strictObject({
            startC: TemperatureC,
            air: z
              .array(z.strictObject({ atMinutes: z.number().min(0).max(100_000), airC: TemperatureC }))
              .min(2, 'give the air at two instants at least')
              .max(1000)
              .describe('In order of time; between points it goes in a straight line'),
            targetC: TemperatureC.optional(),
          })
          .optional()
          .describe('With it the temperatures of the panel are given as well'),
      })
      .meta({ example: EXAMPLES.panelHeat }),
    answer: 'How the metal follows the air, and whether one time constant can tell it',
    status: 200,
    response: z.object({
      kind: z.enum(['lumped', 'notLumped']),
      tauMinutes: z.number().nullable(),
      biot: z.number(),
      highestBiot: z.number(),
      run: z
        .object({
          endC: z.number(),
          peakC: z.number(),
          minutesToTarget: z.number().nullable().describe('null: never, or no target'),
        })
        .nullable(),
    }),
  }),
  calculateBead: defineRoute({
    method: 'POST',
    path: '/v1/calculations/bead',
    operationId: 'calculateBead',
    tag: 'calculations',
    summary: 'How much adhesive, how many cartridges and nozzles, and is there time?',
    access: 'signedIn',
    body: z
      .strictObject({
        bead,
        lengthMm: Millimetres,
        skimWidthMm: Millimetres.default(0),
        skimFilmMm: Millimetres.default(0),
        nozzleHoldUpMl: Millilitres.default(0),
        nozzles: z.number().int().min(1).max(1000).optional().describe('One a cartridge when left out'),
        wasteShare: Share.default(0).describe('0.1 for 10 %'),
        cartridgeMl: Millilitres,
        flangeWidthMm: Millimetres.optional(),
        glassBeadMm: Millimetres.optional(),
        flowMlPerMinute: z.number().positive().max(10_000).optional(),
        workTimeMinutes: Minutes.optional(),
      })
      .meta({ example: EXAMPLES.bead }),
    answer: 'Volumes, cartridges, nozzles, and the time that they take to apply',
    status: 200,
    response: z.object({
      beadMl: z.number(),
      skimMl: z.number(),
      nozzleMl: z.number(),
      wasteMl: z.number(),
      totalMl: z.number(),
      cartridges: z.number().int(),
      nozzles: z.number().int(),
      lengthPerCartridgeMm: z.number(),
      filmMm: z.number().nullable(),
      squeezeOutShare: z.number().nullable(),
      dispensingMinutes: z.number().nullable(),
      isTimely: z.boolean().nullable().describe('Out of the nozzle within the work time'),
    }),
  }),
  calculateDewPoint: defineRoute({
    method: 'POST',
    path: '/v1/calculations/dewPoint',
    operationId: 'calculateDewPoint',
    tag: 'calculations',
    summary: 'Is the metal far enough above the dew point?',
    access: 'signedIn',
    body: z
      .strictObject({
        airTemperatureC: TemperatureC,
        relativeHumidityPercent: HumidityPercent,
        panel: z.strictObject({ temperatureC: TemperatureC, accuracyC: AccuracyC.default(1) }).optional(),
      })
      .meta({ example: EXAMPLES.dewPoint }),
    answer: 'The dew point, and how far above it the metal is',
    status: 200,
    response: z.object({
      dewPointC: z.number(),
      requiredMarginC: z.number(),
      marginC: z.number().nullable().describe("The thermometer's accuracy taken off; null without a panel"),
      isDry: z.boolean().nullable(),
    }),
  }),
  calculateShelfLife: defineRoute({
    method: 'POST',
    path: '/v1/calculations/shelfLife',
    operationId: 'calculateShelfLife',
    tag: 'calculations',
    summary: 'Until when does this cartridge count?',
    access: 'signedIn',
    body: z
      .strictObject({
        printedExpiry: CalendarDate.describe('The last day that counts'),
        timeZone: TimeZone,
        openedAt: Instant.nullable().default(null),
        openLifeDays: z.number().int().min(0).max(3650),
        storage: z
          .strictObject({
            labelStorageC: TemperatureC,
            q10: z.number().min(1, 'must be at least 1').max(5, 'must be at most 5').default(2),
            readings: z
              .array(z.strictObject({ at: Instant, temperatureC: TemperatureC }))
              .max(5000)
              .describe('In order of time'),
          })
          .optional()
          .describe('How warm it lay; the printed expiry is shortened by it'),
        asOf: Instant,
      })
      .meta({ example: EXAMPLES.shelfLife }),
    answer: 'The instant, and which of the limits it comes from',
    status: 200,
    response: z.object({
      expiresAt: Instant.describe('The first instant at which it no longer counts'),
      limit: z.enum(['printedExpiry', 'openLife', 'warmStorage']),
      reason: z.string(),
      urgency: z.enum(['expired', 'soon', 'good']),
      warmStorageLossDays: z.number(),
    }),
  }),
  calculateDataSheetFit: defineRoute({
    method: 'POST',
    path: '/v1/calculations/dataSheetFit',
    operationId: 'calculateDataSheetFit',
    tag: 'calculations',
    summary: 'How well do times at several temperatures agree on one activation energy?',
    access: 'signedIn',
    body: z
      .strictObject({
        points: z
          .array(z.strictObject({ temperatureC: TemperatureC, minutes: Minutes }))
          .min(2, 'give at least two temperatures')
          .max(100),
        temperaturesC: z.array(TemperatureC).max(200).default([]).describe('Where the fitted time is wanted'),
        confidence: z.number().gt(0.5, 'must be above 0.5').lt(1, 'must be below 1').default(0.95),
      })
      .meta({ example: EXAMPLES.dataSheetFit }),
    answer: 'The activation energy and how far each time lies off it',
    status: 200,
    response: z.object({
      activationEnergyJPerMol: z.number(),
      activationEnergyErrorJPerMol: z.number().nullable().describe('null with two points'),
      rSquared: z.number().nullable(),
      residualLn: z.number().nullable().describe('Spread of ln(minutes) about the line'),
      times: z.array(
        z.object({
          temperatureC: z.number(),
          minutes: z.number(),
          lowMinutes: z.number().nullable(),
          highMinutes: z.number().nullable(),
        }),
      ),
    }),
  }),
}
