import type {
  Alert,
  Bond,
  Booking,
  Cartridge,
  DayException,
  Incident,
  Instrument,
  Joint,
  PlannedOperation,
  Product,
  RepairOrder,
  Resource,
  StockCount,
  StockMovement,
} from '../api/types.ts'
import type { MessageKey } from '@clampclock/messages'
import { worded } from './worded.ts'

/** The trade's words for what the wire calls by a code. Written once, shown everywhere. */
export const CHEMISTRY = worded({
  acrylic: 'words.chemistry.acrylic',
  epoxy: 'words.chemistry.epoxy',
  polyurethane: 'words.chemistry.polyurethane',
} as const satisfies Record<Product['chemistry'], MessageKey>)

export const MATERIAL = worded({
  mildSteel: 'words.material.mildSteel',
  highStrengthSteel: 'words.material.highStrengthSteel',
  stainlessSteel: 'words.material.stainlessSteel',
  aluminium5xxx: 'words.material.aluminium5xxx',
  aluminium6xxx: 'words.material.aluminium6xxx',
  glassFibre: 'words.material.glassFibre',
  carbonFibre: 'words.material.carbonFibre',
} as const satisfies Record<Joint['panelMaterial'], MessageKey>)

export const SAFETY_CLASS = worded({
  S1: 'words.safetyClass.S1',
  S2: 'words.safetyClass.S2',
  S3: 'words.safetyClass.S3',
  S4: 'words.safetyClass.S4',
} as const satisfies Record<Joint['safetyClass'], MessageKey>)

/** What each class asks of the people and instruments that make a joint; S1 also of its release. */
export const SAFETY_DEMAND = worded({
  S1: 'words.safetyDemand.S1',
  S2: 'words.safetyDemand.S2',
  S3: 'words.safetyDemand.S3',
  S4: 'words.safetyDemand.S4',
} as const satisfies Record<Joint['safetyClass'], MessageKey>)

export const CARTRIDGE_STATE = worded({
  sealed: 'words.cartridgeState.sealed',
  opened: 'words.cartridgeState.opened',
  empty: 'words.cartridgeState.empty',
  discarded: 'words.cartridgeState.discarded',
  inTransit: 'words.cartridgeState.inTransit',
  missing: 'words.cartridgeState.missing',
} as const satisfies Record<Cartridge['state'], MessageKey>)

export const EXPIRY_LIMIT = worded({
  printedExpiry: 'words.expiryLimit.printedExpiry',
  openLife: 'words.expiryLimit.openLife',
  warmStorage: 'words.expiryLimit.warmStorage',
} as const satisfies Record<Cartridge['expiryLimit'], MessageKey>)

export const MOVEMENT = worded({
  received: 'words.movement.received',
  opened: 'words.movement.opened',
  used: 'words.movement.used',
  emptied: 'words.movement.emptied',
  discarded: 'words.movement.discarded',
  corrected: 'words.movement.corrected',
  sent: 'words.movement.sent',
  arrived: 'words.movement.arrived',
  moved: 'words.movement.moved',
  lost: 'words.movement.lost',
} as const satisfies Record<StockMovement['kind'], MessageKey>)

export const COUNT_DIFFERENCE = worded({
  notFound: 'words.countDifference.notFound',
  otherShelf: 'words.countDifference.otherShelf',
  otherShop: 'words.countDifference.otherShop',
  inTransit: 'words.countDifference.inTransit',
  missing: 'words.countDifference.missing',
  gone: 'words.countDifference.gone',
} as const satisfies Record<NonNullable<StockCount['differences']>[number]['kind'], MessageKey>)

export const COUNT_SETTLEMENT = worded({
  booked: 'words.countSettlement.booked',
  changedSince: 'words.countSettlement.changedSince',
  nothingToBook: 'words.countSettlement.nothingToBook',
} as const)

export const BOND_STATE = worded({
  applied: 'words.bondState.applied',
  clamped: 'words.bondState.clamped',
  released: 'words.bondState.released',
  abandoned: 'words.bondState.abandoned',
} as const satisfies Record<Bond['state'], MessageKey>)

export const INCIDENT = worded({
  earlyRelease: 'words.incident.earlyRelease',
  clampedAfterWorkTime: 'words.incident.clampedAfterWorkTime',
  movedAfterWorkTime: 'words.alert.movedAfterWorkTime',
  gateOverridden: 'words.incident.gateOverridden',
  appliedAgainstRefusal: 'words.incident.appliedAgainstRefusal',
  leftWithAdhesive: 'words.incident.leftWithAdhesive',
} as const satisfies Record<Incident['kind'], MessageKey>)

export const ALERT = worded({
  expiredOnShelf: 'words.alert.expiredOnShelf',
  openedPastOpenLife: 'words.alert.openedPastOpenLife',
  expiresSoon: 'words.alert.expiresSoon',
  belowReorderPoint: 'words.alert.belowReorderPoint',
  noDispenserFits: 'words.alert.noDispenserFits',
  lotOnHold: 'words.alert.lotOnHold',
  storageExcursion: 'words.alert.storageExcursion',
  earlyRelease: 'words.alert.earlyRelease',
  clampedAfterWorkTime: 'words.alert.clampedAfterWorkTime',
  movedAfterWorkTime: 'words.alert.movedAfterWorkTime',
  appliedAgainstRefusal: 'words.alert.appliedAgainstRefusal',
  leftWithAdhesive: 'words.alert.leftWithAdhesive',
  gateOverridden: 'words.alert.gateOverridden',
  plannedMoveBeforeReady: 'words.alert.plannedMoveBeforeReady',
  bayClash: 'words.alert.bayClash',
  sensorSilent: 'words.alert.sensorSilent',
  countDiffers: 'words.alert.countDiffers',
  reservedDies: 'words.alert.reservedDies',
  notComputed: 'words.alert.notComputed',
  sensorDoubted: 'words.alert.sensorDoubted',
  sensorsDisagree: 'words.alert.sensorsDisagree',
  sheetSlower: 'words.alert.sheetSlower',
  workFails: 'words.alert.workFails',
} as const satisfies Record<Alert['kind'], MessageKey>)

export const OPERATION = worded({
  prepare: 'words.operation.prepare',
  dryFit: 'words.operation.dryFit',
  bondAndClamp: 'words.operation.bondAndClamp',
  cure: 'words.operation.cure',
  unclampAndDress: 'words.operation.unclampAndDress',
  weld: 'words.operation.weld',
  sealAndPrime: 'words.operation.sealAndPrime',
  paint: 'words.operation.paint',
  bake: 'words.operation.bake',
  cool: 'words.operation.cool',
  refit: 'words.operation.refit',
} as const satisfies Record<PlannedOperation['kind'], MessageKey>)

export const BAY_ATTRIBUTE = worded({
  lift: 'words.bayAttribute.lift',
  frameBench: 'words.bayAttribute.frameBench',
  heat: 'words.bayAttribute.heat',
  dustFree: 'words.bayAttribute.dustFree',
} as const satisfies Record<Resource['attributes'][number], MessageKey>)

export const SKILL = worded({
  body: 'words.skill.body',
  structural: 'words.skill.structural',
  aluminium: 'words.skill.aluminium',
  welding: 'words.skill.welding',
  paint: 'words.skill.paint',
  fitting: 'words.skill.fitting',
} as const satisfies Record<Resource['skills'][number], MessageKey>)

export const DAY_EXCEPTION = worded({
  closed: 'words.dayException.closed',
  absent: 'words.dayException.absent',
  overtime: 'words.dayException.overtime',
} as const satisfies Record<DayException['kind'], MessageKey>)

export const PRIORITY = worded({
  low: 'words.priority.low',
  normal: 'words.priority.normal',
  high: 'words.priority.high',
  rush: 'words.priority.rush',
} as const satisfies Record<RepairOrder['priority'], MessageKey>)

export const RESOURCE = worded({
  bay: 'words.resource.bay',
  oven: 'words.resource.oven',
  clampSet: 'words.resource.clampSet',
  technician: 'words.resource.technician',
} as const satisfies Record<Resource['kind'], MessageKey>)

export const PURPOSE = worded({
  work: 'words.purpose.work',
  bake: 'words.purpose.bake',
} as const satisfies Record<Booking['purpose'], MessageKey>)

export const READING_SOURCE = worded({
  metalProbe: 'words.readingSource.metalProbe',
  infrared: 'words.readingSource.infrared',
  bayAir: 'words.readingSource.bayAir',
} as const)

export const INSTRUMENT = worded({
  metalProbe: 'words.instrument.metalProbe',
  infrared: 'words.instrument.infrared',
  hygrometer: 'words.instrument.hygrometer',
} as const satisfies Record<Instrument['kind'], MessageKey>)

export const BASIS = worded({
  dataSheet: 'words.basis.dataSheet',
  interpolated: 'words.basis.interpolated',
  extrapolated: 'words.basis.extrapolated',
  estimated: 'words.basis.estimated',
} as const)

export const NEVER = worded({
  tooCold: 'words.never.tooCold',
  beyondForecast: 'words.never.beyondForecast',
  noTemperature: 'words.never.noTemperature',
} as const)

/** Choices for a select, from a table of words. */
export function choicesOf<Value extends string>(
  words: Record<Value, string>,
): { value: Value; label: string }[] {
  return (Object.keys(words) as Value[]).map((value) => ({ value, label: words[value] }))
}

export const SENSOR_DECISION = worded({
  retired: 'words.sensorDecision.retired',
  doubted: 'words.sensorDecision.doubted',
  trusted: 'words.sensorDecision.trusted',
  withdrawn: 'words.sensorDecision.withdrawn',
  wasFahrenheit: 'words.sensorDecision.wasFahrenheit',
  wasCelsius: 'words.sensorDecision.wasCelsius',
} as const)
