import * as z from 'zod'
import { Bond, JointState, MoveCheck } from './bond.ts'
import { Overrides } from './bonds.ts'
import { defineRoute } from '../foundation/route.ts'
import {
  CalendarDate,
  Id,
  Instant,
  Label,
  Note,
  pageOf,
  PageQuery,
  TemperatureC,
  Version,
} from '../foundation/values.ts'

/** What happens if the joint fails, after DIN 2304-1. */
export const SafetyClass = z
  .enum(['S1', 'S2', 'S3', 'S4'])
  .describe('S1 danger to life; S2 danger of injury or large loss; S3 discomfort or some loss; S4 negligible')
  .meta({ id: 'SafetyClass' })

export const PanelMaterial = z
  .enum([
    'mildSteel',
    'highStrengthSteel',
    'stainlessSteel',
    'aluminium5xxx',
    'aluminium6xxx',
    'glassFibre',
    'carbonFibre',
  ])
  .meta({ id: 'PanelMaterial' })

const Procedure = z
  .strictObject({ document: Label, revision: Label, lookedUpOn: CalendarDate })
  .describe("The vehicle maker's procedure: without it no bond is started")

const jointFigures = {
  name: Label,
  panelMaterial: PanelMaterial,
  panelThicknessMm: z.number().min(0.3, 'must be at least 0.3 mm').max(10, 'must be at most 10 mm'),
  safetyClass: SafetyClass,
  productId: Id,
  lengthMm: z.number().positive('must be above 0').max(20_000),
  flangeWidthMm: z.number().positive('must be above 0').max(200),
  beadDiameterMm: z.number().positive('must be above 0').max(20),
  procedure: Procedure.nullable(),
}

export const Joint = z
  .object({
    id: Id,
    repairOrderId: Id,
    ...jointFigures,
    productName: z.string(),
    amountNeededMl: z.number().describe('Bead, skim coat, nozzle and waste'),
    state: JointState,
    bonds: z.array(Bond).describe('Every attempt, the newest last'),
  })
  .meta({ id: 'Joint' })
export type Joint = z.output<typeof Joint>

export const RepairOrderState = z.enum(['open', 'done']).meta({ id: 'RepairOrderState' })

/** What a minute late is worth beside that of others: the plan counts 1, 2, 4 or 8. */
export const Priority = z.enum(['low', 'normal', 'high', 'rush']).meta({ id: 'Priority' })
export type Priority = z.output<typeof Priority>

/** Vehicle identification number, ISO 3779: at most 17 characters, none of I, O and Q. Older vehicles have shorter ones. */
export const Vin = z
  .string()
  .trim()
  .toUpperCase()
  .regex(/^[A-HJ-NPR-Z0-9]{5,17}$/, 'must be 5 to 17 letters and digits, without I, O and Q')
export const Plate = Label.max(20, 'must be at most 20 characters')

export const RepairOrder = z
  .object({
    id: Id,
    shopId: Id,
    number: z.string(),
    vehicle: z.string(),
    vin: z.string().nullable().describe('Vehicle identification number'),
    plate: z.string().nullable(),
    ovenLimitC: z.number().nullable().describe("The vehicle's own oven limit, where its maker gives one"),
    promisedAt: Instant.nullable(),
    priority: Priority,
    note: z.string(),
    state: RepairOrderState,
    bay: z.object({ id: Id, name: z.string() }).nullable().describe('Where it stands now'),
    jointCount: z.number().int(),
    curingCount: z.number().int(),
    version: Version,
  })
  .meta({ id: 'RepairOrder' })
export type RepairOrder = z.output<typeof RepairOrder>

export const RepairOrderDetail = RepairOrder.extend({
  joints: z.array(Joint),
  moveCheck: MoveCheck.describe('The worst of all its joints'),
  nextBay: z
    .object({ id: Id, name: z.string(), from: Instant })
    .nullable()
    .describe('Where it comes to stand by its next booking of a bay'),
}).meta({ id: 'RepairOrderDetail' })
export type RepairOrderDetail = z.output<typeof RepairOrderDetail>

const repairOrderParams = z.object({ repairOrderId: Id })

export const repairRoutes = {
  listRepairOrders: defineRoute({
    method: 'GET',
    path: '/v1/repairOrders',
    operationId: 'listRepairOrders',
    tag: 'repairs',
    summary: 'Repair orders',
    access: 'readShop',
    query: PageQuery.extend({
      shopId: Id.optional(),
      state: RepairOrderState.optional(),
      number: Label.optional(),
    }),
    status: 200,
    response: pageOf(RepairOrder),
  }),
  addRepairOrder: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/repairOrders',
    operationId: 'addRepairOrder',
    tag: 'repairs',
    summary: 'Open a repair order',
    access: 'planWork',
    params: z.object({ shopId: Id }),
    body: z.strictObject({
      number: Label.max(40),
      vehicle: Label,
      vin: Vin.nullable().default(null),
      plate: Plate.nullable().default(null),
      ovenLimitC: TemperatureC.nullable().default(null),
      promisedAt: Instant.nullable().default(null),
      priority: Priority.default('normal'),
      note: Note.default(''),
    }),
    status: 201,
    response: RepairOrderDetail,
  }),
  getRepairOrder: defineRoute({
    method: 'GET',
    path: '/v1/repairOrders/:repairOrderId',
    operationId: 'getRepairOrder',
    tag: 'repairs',
    summary: 'One repair order with its joints and bonds',
    access: 'readShop',
    params: repairOrderParams,
    status: 200,
    response: RepairOrderDetail,
  }),
  editRepairOrder: defineRoute({
    method: 'PATCH',
    path: '/v1/repairOrders/:repairOrderId',
    operationId: 'editRepairOrder',
    tag: 'repairs',
    summary: 'Edit a repair order, or close it',
    description:
      'Another vehicle, VIN or plate leaves the records of its bonds as they were, and stands beside them as a correction.',
    access: 'planWork',
    params: repairOrderParams,
    body: z.strictObject({
      vehicle: Label.optional(),
      vin: Vin.nullable().optional(),
      plate: Plate.nullable().optional(),
      ovenLimitC: TemperatureC.nullable().optional(),
      promisedAt: Instant.nullable().optional(),
      priority: Priority.optional(),
      note: Note.optional(),
      state: RepairOrderState.optional(),
    }),
    ifMatch: true,
    status: 200,
    response: RepairOrderDetail,
  }),
  addJoint: defineRoute({
    method: 'POST',
    path: '/v1/repairOrders/:repairOrderId/joints',
    operationId: 'addJoint',
    tag: 'repairs',
    summary: 'Add a joint to be bonded',
    access: 'planWork',
    params: repairOrderParams,
    body: z.strictObject(jointFigures),
    status: 201,
    response: Joint,
  }),
  setProcedure: defineRoute({
    method: 'PUT',
    path: '/v1/joints/:jointId/procedure',
    operationId: 'setProcedure',
    tag: 'repairs',
    summary: 'Record which procedure the joint is made by',
    access: 'makeBonds',
    params: z.object({ jointId: Id }),
    body: Procedure,
    status: 200,
    response: Joint,
  }),
  moveVehicle: defineRoute({
    method: 'POST',
    path: '/v1/repairOrders/:repairOrderId/move',
    operationId: 'moveVehicle',
    tag: 'repairs',
    summary: 'Move the vehicle out of its bay',
    description:
      'Refused until every bond on it has reached handling strength on the conservative estimate. Its clamps count as taken off, and the bay is free from now. ' +
      'If it was moved all the same, say so with `alreadyHappened` and a reason.',
    access: 'makeBonds',
    params: repairOrderParams,
    body: z
      .strictObject({
        alreadyHappened: z.boolean().default(false),
        reason: Note.default(''),
        overrides: Overrides,
      })
      .refine((r) => !r.alreadyHappened || r.reason.length >= 5, {
        path: ['reason'],
        error: 'write what happened (at least 5 characters)',
      }),
    status: 201,
    response: RepairOrderDetail,
  }),
}
