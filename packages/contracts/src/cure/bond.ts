import { saidOf, Words, WordsOrText } from '../foundation/words.ts'
import * as z from 'zod'
import { ProblemReason } from '../foundation/problems.ts'
import { Chemistry, ProductSheet } from '../work/products.ts'
import { PanelMeasurement } from './reading-quality.ts'
import { ForecastPoint } from './temperature.ts'
import { Id, Instant, threeOf } from '../foundation/values.ts'

export const BondState = z.enum(['applied', 'clamped', 'released', 'abandoned']).meta({ id: 'BondState' })
export type BondState = z.output<typeof BondState>

export const ReadingSource = z.enum(['metalProbe', 'infrared', 'bayAir']).meta({ id: 'ReadingSource' })

export const PanelReading = z
  .object({
    at: Instant,
    temperatureC: z.number(),
    accuracyC: z.number(),
    source: ReadingSource,
    suspect: z.literal(true).optional().describe('In doubt: it may only delay'),
    lowC: z.number().optional().describe('Where two sensors disagree: the low of the colder'),
    highC: z.number().optional().describe('Where two sensors disagree: the high of the warmer'),
    by: WordsOrText.describe('Who read it, or that a thermometer of the bay did'),
    said: saidOf('by'),
  })
  .meta({ id: 'PanelReading' })

/** When a milestone is reached on one of the three estimates; `never` says why no instant can be given. */
export const ReadyInstant = z
  .union([
    z.object({ kind: z.literal('at'), at: Instant }),
    z.object({ kind: z.literal('never'), reason: z.enum(['tooCold', 'beyondForecast', 'noTemperature']) }),
  ])
  .meta({ id: 'ReadyInstant' })
export type ReadyInstant = z.output<typeof ReadyInstant>

export const MilestoneEstimate = z
  .object({
    progress: threeOf(z.number()).describe('Fraction reached now; 1 is reached'),
    readyAt: threeOf(ReadyInstant),
    basis: z.enum(['dataSheet', 'interpolated', 'extrapolated', 'estimated']),
  })
  .meta({ id: 'MilestoneEstimate' })

export const BondEstimate = z
  .object({
    asOf: Instant,
    workTime: MilestoneEstimate,
    handlingStrength: MilestoneEstimate,
    fullCure: MilestoneEstimate,
    notes: z.array(z.object({ kind: z.string(), message: Words, said: saidOf('message') })),
  })
  .meta({ id: 'BondEstimate' })

export const MoveCheck = z
  .object({
    mayMove: z.boolean(),
    asOf: Instant,
    readyAt: ReadyInstant.describe(
      'Handling strength on the conservative estimate: past once it is reached. What else stands against the move, no time brings: see reasons',
    ),
    reasons: z.array(ProblemReason).describe('Why not; empty when it may be moved'),
    measureAgain: z
      .object({ readyAt: ReadyInstant })
      .nullable()
      .optional()
      .describe(
        'When it could be ready if the metal were measured now and were as warm as expected; null where that brings nothing forward',
      ),
  })
  .meta({ id: 'MoveCheck' })
export type MoveCheck = z.output<typeof MoveCheck>

export const IncidentKind = z
  .enum([
    'earlyRelease',
    'clampedAfterWorkTime',
    'movedAfterWorkTime',
    'gateOverridden',
    'appliedAgainstRefusal',
    'leftWithAdhesive',
  ])
  .meta({ id: 'IncidentKind' })

/** Where a joint stands, from everything that happened to it: packages/cure's `jointStanding`. */
export const JointState = z
  .enum([
    'neverBonded',
    'open',
    'curing',
    'ready',
    'releasedReady',
    'releasedEarly',
    'closedLate',
    'appliedAgainstRefusal',
    'lifted',
    'abandoned',
    'accepted',
    'toBeRedone',
  ])
  .meta({ id: 'JointState' })
export type JointState = z.output<typeof JointState>

/** Somebody looked at the joint. Where its class asks for a second person, it waits for that person's agreement. */
export const Inspection = z
  .object({
    id: Id,
    inspector: z.string(),
    method: z.string(),
    result: z.string(),
    hasPhoto: z.boolean(),
    at: Instant,
    by: z.string().describe('Who recorded it'),
    waitsForSecondPerson: z.boolean(),
  })
  .meta({ id: 'Inspection' })
export type Inspection = z.output<typeof Inspection>

/** What departed from the rules, kept for ever; open until somebody entitled disposes of it. */
export const Incident = z
  .object({
    id: Id,
    kind: IncidentKind,
    at: Instant,
    by: z.string(),
    reason: WordsOrText,
    said: saidOf('reason'),
    fractionReached: z
      .number()
      .nullable()
      .describe('Conservative fraction of handling strength at an early release'),
    disposition: z
      .object({
        kind: z.enum(['inspectedAndAccepted', 'redone']),
        at: Instant,
        by: z.string(),
        reason: WordsOrText,
        said: saidOf('reason'),
      })
      .nullable(),
    inspections: z.array(Inspection).describe('The newest last'),
  })
  .meta({ id: 'Incident' })
export type Incident = z.output<typeof Incident>

export const Bond = z
  .object({
    id: Id,
    shopId: Id,
    jointId: Id,
    jointName: z.string(),
    repairOrderId: Id,
    repairOrderNumber: z.string(),
    vehicle: z.string(),
    attempt: z.number().int(),
    state: BondState,
    productName: z.string(),
    sheet: ProductSheet,
    judgedBy: z
      .array(ProductSheet)
      .describe(
        'The revisions that count for it: the one that it was made by, and each later one that was approved and is valid since. Of all of them the slower, and the shorter work time. Empty where it cannot be computed',
      ),
    cartridgeId: Id,
    cartridgeCode: z.string(),
    lotNumber: z.string(),
    moreCartridges: z
      .array(
        z.object({ cartridgeId: Id, cartridgeCode: z.string(), lotNumber: z.string(), amountMl: z.number() }),
      )
      .describe('Beyond the first, where one did not suffice'),
    bayId: Id.nullable(),
    bayName: z.string().nullable(),
    bayFrom: Instant.nullable().describe(
      'Of a bond made in no bay: since when it is known where the vehicle stands, and the air there counts',
    ),
    amountMl: z.number().describe('From all its cartridges'),
    shortAmount: z
      .object({ neededMl: z.number(), by: z.string(), reason: z.string() })
      .nullable()
      .describe('Less than the joint needed then, confirmed by whom and why; null: enough, or not known'),
    appliedAt: Instant,
    appliedBy: z.string(),
    slidAt: Instant.nullable().describe('When the panels were last slid into place'),
    slidBy: z.string().nullable(),
    clampedAt: Instant.nullable(),
    clampedBy: z.string().nullable(),
    releasedAt: Instant.nullable(),
    releasedBy: z.string().nullable(),
    abandonedAt: Instant.nullable(),
    abandonReason: z.string().nullable(),
    wasLifted: z.boolean().describe('The panels were lifted apart: adhesive is on both faces'),
    toldLate: z
      .object({ appliedMinutes: z.number().nullable(), clampedMinutes: z.number().nullable() })
      .describe('How long after it is said to have happened it was entered, where that makes a difference'),
    countsFrom: Instant.describe(
      'From when cure is credited: the application, or for one that was entered late a quarter of an hour before that',
    ),
    panelTauMinutes: z.number().nullable(),
    chemistry: Chemistry,
    place: z
      .object({ fallC: z.array(z.number()), riseC: z.array(z.number()) })
      .describe('How far the air of the bay may fall, and rise, by hours in which nobody measures, degC'),
    readings: z.array(PanelReading).describe('What the estimate is computed from: panel and air of the bay'),
    measurements: z.array(PanelMeasurement).describe('Every panel reading, with those that count no more'),
    forecast: z.array(ForecastPoint),
    estimate: BondEstimate,
    moveCheck: MoveCheck,
    incidents: z.array(Incident),
  })
  .meta({ id: 'Bond' })
export type Bond = z.output<typeof Bond>
