import type { ForecastPoint } from '@clampclock/cure'
import { DateTime } from 'luxon'
import { BUILT_IN_TEMPLATES } from '../operations/built-in-templates.ts'
import { isOfVehicle } from '../operations/expand.ts'
import type { BakedJoint, JointFact, OrderFact, ResourceFact, ShopFacts } from './facts.ts'

/** Invented, for unit tests: a shop of two bays, an oven, two technicians and three clamp sets. */
const ZONE = 'America/New_York'
/** Monday, 5 May 2031, 06:00 in New York. */
export const MONDAY_MS = DateTime.fromISO('2031-05-05T06:00', { zone: ZONE }).toMillis()
const WEEK = [1, 2, 3, 4, 5].flatMap((weekday) => [
  { resourceId: null, weekday, fromMinute: 420, untilMinute: 720 },
  { resourceId: null, weekday, fromMinute: 750, untilMinute: 930 },
])

export const JOINT: JointFact = {
  productId: 'glue',
  productName: 'Test adhesive',
  sheet: {
    points: [
      { temperatureC: 10, workTimeMinutes: 120, handlingTimeMinutes: 360, fullCureMinutes: 2880 },
      { temperatureC: 23, workTimeMinutes: 60, handlingTimeMinutes: 180, fullCureMinutes: 1440 },
      { temperatureC: 40, workTimeMinutes: 20, handlingTimeMinutes: 60, fullCureMinutes: 480 },
    ],
    applicationRangeC: { min: 10, max: 35 },
    lowestCureC: 5,
    highestCureC: 80,
    serviceRangeC: { min: -40, max: 120 },
  },
  panelTauMinutes: 4,
  amountUl: 60_000,
}

export const BAKED: BakedJoint = {
  name: 'Door skin',
  productName: JOINT.productName,
  serviceRangeC: JOINT.sheet.serviceRangeC,
  heldBy: null,
}

const resource = (
  id: string,
  kind: ResourceFact['kind'],
  more: Partial<ResourceFact> = {},
): ResourceFact => ({
  id,
  kind,
  name: id,
  capacity: 1,
  attributes: [],
  skills: [],
  isActive: true,
  ...more,
})

export const RESOURCES: readonly ResourceFact[] = [
  resource('bay-1', 'bay'),
  resource('bay-2', 'bay'),
  resource('oven', 'oven'),
  resource('clamps', 'clampSet', { capacity: 3 }),
  resource('ann', 'technician', { skills: ['body', 'fitting', 'paint'] }),
  resource('ben', 'technician', { skills: ['body', 'fitting', 'paint'] }),
]

export const steady = (lowC: number, hours = 336, originMs = MONDAY_MS): ForecastPoint[] =>
  Array.from({ length: hours + 1 }, (_, hour) => ({
    atMs: originMs + hour * 3_600_000,
    lowC,
    expectedC: lowC + 2,
    highC: lowC + 4,
  }))

export function order(id: string, more: Partial<OrderFact> = {}): OrderFact {
  const { steps } = BUILT_IN_TEMPLATES.find(({ key }) => key === 'doorSkin')!
  return {
    id,
    number: id.toUpperCase(),
    priority: 'normal',
    promisedAtMs: null,
    ovenLimitC: null,
    operations: steps.map((step) => ({
      ...step,
      id: `${id}/${step.kind}`,
      jointId: isOfVehicle(step.kind) ? null : `${id}/joint`,
      clampSetId: null,
      byProgram: null,
      joint: step.kind === 'bondAndClamp' || step.kind === 'cure' ? JOINT : null,
      progress: { kind: 'open' },
    })),
    bonds: [],
    joints: [BAKED],
    ...more,
  }
}

export function shopFacts(more: Partial<ShopFacts> = {}): ShopFacts {
  return {
    timeZone: ZONE,
    temperatureUnit: 'C',
    originMs: MONDAY_MS,
    horizonMinutes: 14 * 1440,
    resources: RESOURCES,
    shifts: WEEK,
    exceptions: [],
    forecasts: new Map([
      ['bay-1', steady(21)],
      ['bay-2', steady(21)],
    ]),
    orders: [order('car-1')],
    taken: [],
    lots: [],
    ...more,
  }
}
