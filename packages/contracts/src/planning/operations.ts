import { saidOf, WordsOrText } from '../foundation/words.ts'
import * as z from 'zod'
import { BakeProgram } from '../cure/bakes.ts'
import { defineRoute } from '../foundation/route.ts'
import { BayAttribute, Skill } from '../foundation/shops.ts'
import { Id, Instant, Label, TemperatureC, Version } from '../foundation/values.ts'

/** In the order in which they are done on a joint, and then on the vehicle. */
export const OperationKind = z
  .enum([
    'prepare',
    'dryFit',
    'bondAndClamp',
    'cure',
    'unclampAndDress',
    'weld',
    'sealAndPrime',
    'paint',
    'bake',
    'cool',
    'refit',
  ])
  .meta({ id: 'OperationKind' })
export type OperationKind = z.output<typeof OperationKind>

/** Nobody is needed; nothing but time passes. */
export const UNATTENDED: readonly OperationKind[] = ['cure', 'bake', 'cool']

/** Done on the vehicle as a whole, once all its joints are through, in this order. */
export const OF_THE_VEHICLE: readonly OperationKind[] = ['sealAndPrime', 'paint', 'bake', 'cool', 'refit']

export const WorkMinutes = z
  .number()
  .int()
  .min(1, 'must be at least 1 min')
  .max(10_080, 'must be at most 7 days')

export const stepFacts = {
  kind: OperationKind,
  name: Label,
  place: z.enum(['bay', 'oven']).describe('Where the vehicle stands meanwhile'),
  workMinutes: WorkMinutes.nullable().describe(
    "null for a cure: it takes as long as the product's sheet and the forecast of the bay say; and in a template for a bake by its program",
  ),
  technicians: z.number().int().min(0).max(4).describe('0 for a cure, a bake and cooling down'),
  skill: Skill.nullable().describe('That each technician on it needs'),
  clampSets: z.number().int().min(0).max(500).describe('Held from here to the end of the cure'),
  attributes: z.array(BayAttribute).max(4).describe('That the bay needs'),
  highestMetalC: TemperatureC.nullable().describe(
    'Of a bake: what the metal will get to; null in a template for a bake by its program',
  ),
  bakeProgram: BakeProgram.nullable().describe(
    'Of a bake: its minutes and highest metal temperature are worked out from it for each vehicle, by its joints',
  ),
}

type StepFacts = z.output<z.ZodObject<typeof stepFacts>>

/** What a step of each kind has, and cannot have: of a template, and of one vehicle. */
export function checkStep(step: StepFacts, context: z.RefinementCtx): void {
  const { kind, workMinutes, technicians, bakeProgram, highestMetalC, place } = step
  const fault = (field: keyof StepFacts, message: string) =>
    context.addIssue({ code: 'custom', path: [field], message })
  if ((kind === 'cure' || bakeProgram !== null) !== (workMinutes === null))
    fault(
      'workMinutes',
      'must be null for a cure and for a bake by its bakeProgram, and given for anything else',
    )
  if (UNATTENDED.includes(kind) !== (technicians === 0))
    fault('technicians', 'must be 0 for a cure, a bake and cooling down, and at least 1 for anything else')
  if (kind !== 'bake' && bakeProgram !== null) fault('bakeProgram', 'is only for a bake')
  if (kind !== 'bake' && highestMetalC !== null) fault('highestMetalC', 'is only for a bake')
  if (kind === 'bake' && (highestMetalC === null) === (bakeProgram === null))
    fault('highestMetalC', 'or bakeProgram, one of them, is needed for a bake')
  if (kind === 'bake' && place !== 'oven') fault('place', 'must be oven for a bake')
}

export const templateStepFacts = { ...stepFacts, bakeProgram: stepFacts.bakeProgram.default(null) }

export const TemplateStep = z
  .strictObject(templateStepFacts)
  .superRefine(checkStep)
  .meta({ id: 'TemplateStep' })
export type TemplateStep = z.output<typeof TemplateStep>

const TemplateKey = z
  .string()
  .regex(/^[a-z][a-zA-Z0-9]{1,39}$/, 'must be letters and digits, such as doorSkin')

/** A step as it is told: what the program brings along is named in the reader's language. */
const ToldStep = z.object({ ...templateStepFacts, name: WordsOrText }).meta({ id: 'ToldTemplateStep' })

export const RepairTemplate = z
  .object({
    key: z.string(),
    name: WordsOrText,
    said: saidOf('name'),
    steps: z.array(ToldStep),
    isOwn: z.boolean().describe('The shop has changed it, or made it'),
    isBuiltIn: z.boolean().describe('It comes with the program, whether the shop has changed it or not'),
    isSetAside: z.boolean().describe('The shop does not use it: it is offered nowhere'),
    version: z.number().int().describe("Of the shop's own; 0 while it has none, and for a new one"),
  })
  .meta({ id: 'RepairTemplate' })
export type RepairTemplate = z.output<typeof RepairTemplate>

export const Operation = z
  .object({
    id: Id,
    shopId: Id,
    repairOrderId: Id,
    jointId: Id.nullable(),
    jointName: z.string().nullable(),
    position: z.number().int(),
    ...stepFacts,
    name: WordsOrText,
    said: saidOf('name'),
    startedAt: Instant.nullable(),
    finishedAt: Instant.nullable(),
    expectedEndAt: Instant.nullable().describe(
      'Told by whoever works on it, when it will take longer or shorter',
    ),
    hasBegun: z
      .boolean()
      .describe('Started; of a bond and its cure: the joint is bonded. It stays as it is, on record'),
    version: Version,
  })
  .meta({ id: 'Operation' })
export type Operation = z.output<typeof Operation>

const shopParams = z.object({ shopId: Id })
const orderParams = z.object({ repairOrderId: Id })
const operationParams = z.object({ operationId: Id })
const templateParams = z.object({ shopId: Id, key: TemplateKey })

export const operationRoutes = {
  listRepairTemplates: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/repairTemplates',
    operationId: 'listRepairTemplates',
    tag: 'planning',
    summary: 'Repair templates with the defaults of the shop',
    access: 'readShop',
    params: shopParams,
    status: 200,
    response: z.object({ items: z.array(RepairTemplate) }),
  }),
  setRepairTemplate: defineRoute({
    method: 'PUT',
    path: '/v1/shops/:shopId/repairTemplates/:key',
    operationId: 'setRepairTemplate',
    tag: 'planning',
    summary: "Make the shop's own version of a template, or a new one",
    description: 'Operations that were made from it before stay as they are. If-Match "0" makes a new one.',
    access: 'planWork',
    params: templateParams,
    body: z
      .strictObject({
        name: Label,
        steps: z
          .array(TemplateStep)
          .min(1, 'must have at least one step')
          .max(40, 'must be at most 40 steps'),
        isSetAside: z.boolean().default(false),
      })
      .superRefine(({ steps }, context) => {
        for (const place of apartFromBond(steps))
          context.addIssue({
            code: 'custom',
            path: ['steps', place, 'kind'],
            message:
              'a cure comes right after the bond that it belongs to, and each bond is followed by its cure',
          })
      }),
    ifMatch: true,
    status: 200,
    response: RepairTemplate,
  }),
  removeRepairTemplate: defineRoute({
    method: 'DELETE',
    path: '/v1/shops/:shopId/repairTemplates/:key',
    operationId: 'removeRepairTemplate',
    tag: 'planning',
    summary: "Drop the shop's own version; a template that comes with the program has its defaults again",
    access: 'planWork',
    params: templateParams,
    status: 204,
    response: z.null(),
  }),
  listOperations: defineRoute({
    method: 'GET',
    path: '/v1/repairOrders/:repairOrderId/operations',
    operationId: 'listOperations',
    tag: 'planning',
    summary: 'What is to be done on a repair order, in order',
    description: 'A bake by its program that has not begun has the minutes that the next plan would give it.',
    access: 'readShop',
    params: orderParams,
    status: 200,
    response: z.object({
      items: z.array(Operation),
      isPlanOutdated: z
        .boolean()
        .describe('The published plan has the vehicle as it was before its operations were changed'),
    }),
  }),
  addOperations: defineRoute({
    method: 'POST',
    path: '/v1/repairOrders/:repairOrderId/operations',
    operationId: 'addOperations',
    tag: 'planning',
    summary: 'Expand a template to operations, for a joint',
    description:
      'Steps of the vehicle (seal, paint, bake, cool, refit) are added once, however many joints it has.',
    access: 'planWork',
    params: orderParams,
    body: z.strictObject({ template: TemplateKey, jointId: Id.nullable().default(null) }),
    answer: 'The operations of the repair order, in their order',
    status: 201,
    response: z.object({ items: z.array(Operation) }),
  }),
  startOperation: defineRoute({
    method: 'POST',
    path: '/v1/operations/:operationId/start',
    operationId: 'startOperation',
    tag: 'planning',
    summary: 'Work on an operation begins now',
    description: 'A bond is started at its joint, and its cure follows from it.',
    access: 'makeBonds',
    params: operationParams,
    body: z.strictObject({
      placeId: Id.nullable().default(null).describe('null: where it is planned'),
      technicianIds: z.array(Id).max(4).default([]).describe('Empty: those who are planned'),
    }),
    status: 201,
    response: Operation,
  }),
  finishOperation: defineRoute({
    method: 'POST',
    path: '/v1/operations/:operationId/finish',
    operationId: 'finishOperation',
    tag: 'planning',
    summary: 'An operation is finished now',
    access: 'makeBonds',
    params: operationParams,
    status: 201,
    response: Operation,
  }),
  delayOperation: defineRoute({
    method: 'POST',
    path: '/v1/operations/:operationId/expectedEnd',
    operationId: 'delayOperation',
    tag: 'planning',
    summary: 'Say when an operation that is under way will be finished',
    access: 'makeBonds',
    params: operationParams,
    body: z.strictObject({ expectedEndAt: Instant }),
    status: 201,
    response: Operation,
  }),
  importRepairOrders: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/repairOrderImports',
    operationId: 'importRepairOrders',
    tag: 'repairs',
    summary: 'Open repair orders from a table (CSV)',
    description:
      'A header line, then a line for each joint; lines of one number make one repair order. Needed: number, vehicle. ' +
      'Known: promisedAt (with an offset, or on the clock of the shop), priority, ovenLimitC, note; joint, product, panelMaterial, ' +
      'panelThicknessMm, safetyClass, lengthMm, flangeWidthMm, beadDiameterMm, template. All of it is taken, or nothing: every fault is named with its line.',
    access: 'planWork',
    params: shopParams,
    body: z.strictObject({
      csv: z.string().min(1, 'must not be empty').max(500_000, 'must be at most 500000 characters'),
    }),
    answer: 'The repair orders that were opened, and the lines that were not',
    status: 201,
    response: z.object({
      repairOrders: z.array(z.object({ id: Id, number: z.string(), jointCount: z.number().int() })),
    }),
  }),
}

/** The places of cures without their bond before them, and of bonds without their cure after them. */
function apartFromBond(steps: readonly { readonly kind: OperationKind }[]): number[] {
  return steps.flatMap(({ kind }, i) => {
    const isApart =
      (kind === 'cure' && steps[i - 1]?.kind !== 'bondAndClamp') ||
      (kind === 'bondAndClamp' && steps[i + 1]?.kind !== 'cure')
    return isApart ? [i] : []
  })
}
