import * as z from 'zod'
import { ProblemReason } from '../foundation/problems.ts'
import { defineRoute } from '../foundation/route.ts'
import { ConfirmedFindings } from './reading-quality.ts'
import {
  AccuracyC,
  HumidityPercent,
  Id,
  Instant,
  Label,
  Millilitres,
  Note,
  Reason,
  RoomAirC,
  TemperatureC,
} from '../foundation/values.ts'
import { MoveCheck, Bond } from './bond.ts'

const bondParams = z.object({ bondId: Id })
const jointParams = z.object({ jointId: Id })

export const Overrides = z
  .array(z.strictObject({ code: z.string().max(60), reason: Reason }))
  .max(20)
  .default([])
  .describe('Reasons to go on although a gate refuses; needs takeResponsibility')

const InstrumentId = Id.nullable()
  .default(null)
  .describe("The thermometer of the shop's register that took it: its accuracy and calibration count then")

/** What is done to the metal before the adhesive goes on, step by step: the technician's own word on each. */
export const PreparationStep = z
  .enum(['bareMetal', 'abraded', 'solventWiped', 'flashedOff', 'dryFit', 'skimCoat'])
  .meta({ id: 'PreparationStep' })
export type PreparationStep = z.output<typeof PreparationStep>

const Application = z.strictObject({
  cartridgeId: Id,
  dispenserId: Id,
  bayId: Id.nullable().default(null).describe('The bay the vehicle stands in: the bond follows its air'),
  panel: z
    .strictObject({
      temperatureC: TemperatureC,
      accuracyC: AccuracyC.default(1),
      source: z.enum(['metalProbe', 'infrared']).default('metalProbe'),
      instrumentId: InstrumentId,
    })
    .describe('Metal temperature measured at the joint'),
  airTemperatureC: RoomAirC.describe(
    "Read at the joint with another thermometer than the bay's, best with the one that reads the panel: the two are held against one another",
  ),
  relativeHumidityPercent: HumidityPercent,
  hygrometerId: Id.nullable()
    .default(null)
    .describe("The hygrometer of the shop's register: its accuracy counts towards the dew point"),
  airReadWith: z
    .enum(['panelThermometer', 'hygrometer', 'another'])
    .optional()
    .describe(
      'Which thermometer read the air. Only the one that reads the panel is borne out by it, and infrared cannot see air. Left out: the hygrometer where one is named, else the one that reads the panel',
    ),
  amountMl: Millilitres.min(0.01, 'must be at least 0.01 mL').describe('Out of this cartridge'),
  moreCartridges: z
    .array(z.strictObject({ cartridgeId: Id, amountMl: Millilitres.min(0.01, 'must be at least 0.01 mL') }))
    .max(9)
    .default([])
    .describe('Further cartridges of the same product, where one does not suffice'),
  appliedAt: Instant.optional().describe(
    'When the adhesive left the nozzle; now when left out, never in the future',
  ),
  prepared: z
    .strictObject({
      surfaces: z.boolean().describe('Both faces prepared as the data sheet says'),
      dryFit: z.boolean().describe('Dry fit done, clamps set out'),
      skimCoat: z.boolean().describe('All bared metal gets a thin coat'),
    })
    .describe("The technician's own word; what is false is refused"),
  preparation: z
    .array(PreparationStep)
    .max(6)
    .refine((steps) => new Set(steps).size === steps.length, 'names one of them twice')
    .optional()
    .describe('The same step by step, kept in the bond record; what is asked for is told by `prepared`'),
  alreadyHappened: z
    .boolean()
    .default(false)
    .describe(
      'The adhesive is on although a gate refuses: recorded as an incident, the joint is not ready whatever the clock says, and the vehicle is held until somebody entitled disposes of it',
    ),
  reason: Note.default('').describe('What happened; asked for with alreadyHappened'),
  confirmed: ConfirmedFindings,
  shortAmount: z
    .strictObject({ reason: Reason })
    .nullable()
    .default(null)
    .describe(
      'Asked for by `amount-questioned`: why less than the joint needs went on. Kept with your name; it makes nothing ready sooner',
    ),
  overrides: Overrides,
})

const Photo = z.strictObject({
  mediaType: z.enum(['image/jpeg', 'image/png']),
  base64: z
    .base64('must be base64')
    .max(1_400_000, 'must be at most 1 MB: scale it down')
    .describe('At most 1 MB'),
})

const Disposal = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('inspectedAndAccepted'),
      inspectorId: Id.describe(
        'Who inspected it: a person of the chain, qualified for the class of the joint',
      ),
      method: Label.describe('How it was inspected'),
      result: Reason.describe('What was found'),
      photo: Photo.nullable().default(null).describe('Asked for by the classes S1 and S2'),
    }),
    z.strictObject({ kind: z.literal('redone'), reason: Reason }),
  ])
  .describe('Nothing is taken for granted: accepting says who inspected, how, and what was found')

export const bondRoutes = {
  checkBond: defineRoute({
    method: 'POST',
    path: '/v1/joints/:jointId/bondChecks',
    operationId: 'checkBond',
    tag: 'bonds',
    summary: 'May I use this here and now? Every gate at once, nothing recorded',
    access: 'makeBonds',
    params: jointParams,
    body: Application,
    answer: 'Every reason against it and every question about it, and what the bond would be',
    status: 200,
    response: z.object({
      mayStart: z.boolean(),
      dewPointC: z.number(),
      workTimeMinutes: z
        .number()
        .nullable()
        .describe('To the earliest end of the work time: what the countdown would start from'),
      handlingTimeMinutes: z.number().nullable().describe('To handling strength on the careful estimate'),
      ifProvenMinutes: z
        .number()
        .nullable()
        .describe(
          'The same, if the air were read with the thermometer that reads the panel and the two agreed; null where nothing would be sooner',
        ),
      amountNeededMl: z.number(),
      reasons: z.array(ProblemReason),
      questions: z
        .array(ProblemReason)
        .describe(
          'What is doubtful of the temperatures and the amount given; confirm it, or mend it: `belowNeed` with `shortAmount`, the rest with `confirmed`',
        ),
    }),
  }),
  startBond: defineRoute({
    method: 'POST',
    path: '/v1/joints/:jointId/bonds',
    operationId: 'startBond',
    tag: 'bonds',
    summary: 'Start a bond: the adhesive has left the nozzle',
    description:
      'Work time and handling time start. The cartridge is opened if it was sealed, and the amount is booked from it.',
    access: 'makeBonds',
    params: jointParams,
    body: Application.refine((a) => !a.alreadyHappened || a.reason.length >= 5, {
      path: ['reason'],
      error: 'write what happened (at least 5 characters)',
    }),
    status: 201,
    response: Bond,
  }),
  listBonds: defineRoute({
    method: 'GET',
    path: '/v1/bonds',
    operationId: 'listBonds',
    tag: 'bonds',
    summary: 'Bonds that are curing, or of a repair order',
    access: 'readShop',
    query: z.strictObject({ shopId: Id.optional(), repairOrderId: Id.optional() }),
    status: 200,
    response: z.object({ items: z.array(Bond) }),
  }),
  getBond: defineRoute({
    method: 'GET',
    path: '/v1/bonds/:bondId',
    operationId: 'getBond',
    tag: 'bonds',
    summary: 'One bond with its estimate',
    access: 'readShop',
    params: bondParams,
    status: 200,
    response: Bond,
  }),
  addPanelReading: defineRoute({
    method: 'POST',
    path: '/v1/bonds/:bondId/readings',
    operationId: 'addPanelReading',
    tag: 'bonds',
    summary: 'Add a panel temperature',
    description:
      'A doubtful one is answered with `reading-questioned` and what is doubtful; confirmed, it is stored as suspect: it may then only delay, until a second reading by somebody else or another instrument bears it out. The same value for the same instant is there already.',
    access: 'makeBonds',
    params: bondParams,
    body: z.strictObject({
      at: Instant.optional(),
      temperatureC: TemperatureC,
      accuracyC: AccuracyC.default(1),
      source: z.enum(['metalProbe', 'infrared']).default('metalProbe'),
      instrumentId: InstrumentId,
      confirmed: ConfirmedFindings,
    }),
    status: 201,
    response: Bond,
  }),
  clampBond: defineRoute({
    method: 'POST',
    path: '/v1/bonds/:bondId/clamping',
    operationId: 'clampBond',
    tag: 'bonds',
    summary: 'The joint is closed and clamped',
    description:
      'After the work time has run out it is recorded anyway, raises an alert, and needs a disposition. ' +
      'A joint of class S1 or S2 is closed by somebody qualified for it, or with a written reason of somebody entitled.',
    access: 'makeBonds',
    params: bondParams,
    body: z.strictObject({ at: Instant.optional(), note: Note.default(''), overrides: Overrides }),
    status: 201,
    response: Bond,
  }),
  slideBond: defineRoute({
    method: 'POST',
    path: '/v1/bonds/:bondId/slides',
    operationId: 'slideBond',
    tag: 'bonds',
    summary: 'The panels were slid into place, not lifted',
    description:
      'Recorded while the work time runs: sliding does no harm then. Once it may be over it is refused: what has begun to cure would be torn. ' +
      'If it happened all the same, say so with `alreadyHappened` and a reason: it is an incident, and the joint waits until that is disposed of. That holds after the release too.',
    access: 'makeBonds',
    params: bondParams,
    body: z
      .strictObject({
        at: Instant.optional(),
        alreadyHappened: z.boolean().default(false),
        reason: Note.default(''),
      })
      .refine((r) => !r.alreadyHappened || r.reason.length >= 5, {
        path: ['reason'],
        error: 'write what happened (at least 5 characters)',
      }),
    status: 201,
    response: Bond,
  }),
  placeBond: defineRoute({
    method: 'POST',
    path: '/v1/bonds/:bondId/bay',
    operationId: 'placeBond',
    tag: 'bonds',
    summary: 'Say in which bay the vehicle stands, of a bond that was made in none',
    description:
      'The air of the bay counts from now on; what was before stays as little known as it was. Refused where the bond has a bay already, where another vehicle stands there, and where this one cures in another.',
    access: 'makeBonds',
    params: bondParams,
    body: z.strictObject({ bayId: Id }),
    status: 201,
    response: Bond,
  }),
  getMoveCheck: defineRoute({
    method: 'GET',
    path: '/v1/bonds/:bondId/moveCheck',
    operationId: 'getMoveCheck',
    tag: 'bonds',
    summary: 'May I move it now?',
    access: 'readShop',
    params: bondParams,
    status: 200,
    response: MoveCheck,
  }),
  releaseBond: defineRoute({
    method: 'POST',
    path: '/v1/bonds/:bondId/release',
    operationId: 'releaseBond',
    tag: 'bonds',
    summary: 'Take the clamps off',
    description:
      'Refused until the conservative estimate has reached handling strength. If it happened on the floor all the same, ' +
      'say so with `alreadyHappened` and a reason: it is stored as an early release, and stays open until disposed of.',
    access: 'makeBonds',
    params: bondParams,
    body: z
      .strictObject({
        at: Instant.optional(),
        alreadyHappened: z.boolean().default(false),
        reason: Note.default(''),
        overrides: Overrides,
      })
      .refine((r) => !r.alreadyHappened || r.reason.length >= 5, {
        path: ['reason'],
        error: 'write what happened (at least 5 characters)',
      }),
    status: 201,
    response: Bond,
  }),
  abandonBond: defineRoute({
    method: 'POST',
    path: '/v1/bonds/:bondId/abandonment',
    operationId: 'abandonBond',
    tag: 'bonds',
    summary: 'This attempt is over: scrape both sides and start again',
    access: 'makeBonds',
    params: bondParams,
    body: z.strictObject({
      at: Instant.optional(),
      reason: Reason,
      wasLifted: z
        .boolean()
        .default(false)
        .describe('The panels were lifted apart: both faces must be scraped'),
    }),
    status: 201,
    response: Bond,
  }),
  disposeIncident: defineRoute({
    method: 'POST',
    path: '/v1/incidents/:incidentId/disposition',
    operationId: 'disposeIncident',
    tag: 'bonds',
    summary: 'Dispose of an incident: inspected and accepted, or to be redone',
    description:
      'Accepting a joint of class S1 or S2 asks for an inspector qualified for it, a photo, and a second person: it counts once that person has agreed to the inspection. ' +
      'What is to be redone holds the vehicle until another attempt was released ready.',
    access: 'takeResponsibility',
    params: z.object({ incidentId: Id }),
    body: Disposal,
    status: 201,
    response: Bond,
  }),
  agreeToInspection: defineRoute({
    method: 'POST',
    path: '/v1/inspections/:inspectionId/agreement',
    operationId: 'agreeToInspection',
    tag: 'bonds',
    summary: 'The second person agrees to an inspection',
    description:
      'Somebody entitled other than who inspected it, who recorded that, and who made the joint. The incident is disposed of then.',
    access: 'takeResponsibility',
    params: z.object({ inspectionId: Id }),
    body: z.strictObject({ reason: Reason.describe('What the second person looked at') }),
    status: 201,
    response: Bond,
  }),
  getInspectionPhoto: defineRoute({
    method: 'GET',
    path: '/v1/inspections/:inspectionId/photo',
    operationId: 'getInspectionPhoto',
    tag: 'bonds',
    summary: 'The photo of an inspection',
    access: 'readShop',
    params: z.object({ inspectionId: Id }),
    status: 200,
    response: z.object({
      mediaType: z.enum(['image/jpeg', 'image/png']),
      base64: z.string(),
      sha256: z.string().describe('As it stands in the bond record'),
    }),
  }),
  listInspectors: defineRoute({
    method: 'GET',
    path: '/v1/incidents/:incidentId/inspectors',
    operationId: 'listInspectors',
    tag: 'bonds',
    summary: 'Who may inspect the joint of an incident',
    description: 'People of the chain who work in its shop and are qualified for the class of the joint.',
    access: 'takeResponsibility',
    params: z.object({ incidentId: Id }),
    status: 200,
    response: z.object({
      items: z.array(z.object({ id: Id, name: z.string() })),
      needsPhoto: z.boolean(),
      needsSecondPerson: z.boolean(),
      mayAccept: z
        .boolean()
        .describe('A joint that is off its clamps is accepted once it would have reached handling strength'),
      acceptableAt: Instant.nullable().describe('From when on; null where it may be now, or nobody can say'),
    }),
  }),
}
