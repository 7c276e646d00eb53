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

/** The trade's words for what the wire calls by a code. Written once, shown everywhere. */
export const CHEMISTRY = {
  acrylic: 'Acrylic',
  epoxy: 'Epoxy',
  polyurethane: 'Polyurethane',
} as const satisfies Record<Product['chemistry'], string>

export const MATERIAL = {
  mildSteel: 'Mild steel',
  highStrengthSteel: 'High-strength steel',
  stainlessSteel: 'Stainless steel',
  aluminium5xxx: 'Aluminium 5xxx',
  aluminium6xxx: 'Aluminium 6xxx',
  glassFibre: 'Glass fibre',
  carbonFibre: 'Carbon fibre',
} as const satisfies Record<Joint['panelMaterial'], string>

export const SAFETY_CLASS = {
  S1: 'S1: danger to life',
  S2: 'S2: danger of injury or large loss',
  S3: 'S3: discomfort or some loss',
  S4: 'S4: negligible',
} as const satisfies Record<Joint['safetyClass'], string>

/** What each class asks of the people and instruments that make a joint; S1 also of its release. */
export const SAFETY_DEMAND = {
  S1: 'Made and clamped by somebody qualified for S1, measured with a thermometer in calibration; two such readings before the clamps come off',
  S2: 'Made and clamped by somebody qualified for S2 or S1, measured with a thermometer in calibration',
  S3: 'No qualification and no register thermometer required',
  S4: 'No qualification and no register thermometer required',
} as const satisfies Record<Joint['safetyClass'], string>

export const CARTRIDGE_STATE = {
  sealed: 'Sealed',
  opened: 'Opened',
  empty: 'Empty',
  discarded: 'Discarded',
  inTransit: 'On its way',
  missing: 'Missing',
} as const satisfies Record<Cartridge['state'], string>

export const EXPIRY_LIMIT = {
  printedExpiry: 'Printed expiry',
  openLife: 'Open life',
  warmStorage: 'Warm storage',
} as const satisfies Record<Cartridge['expiryLimit'], string>

export const MOVEMENT = {
  received: 'Received',
  opened: 'Opened',
  used: 'Used',
  emptied: 'Emptied',
  discarded: 'Discarded',
  corrected: 'Corrected',
  sent: 'Sent',
  arrived: 'Arrived',
  moved: 'Moved',
  lost: 'Lost on the way',
} as const satisfies Record<StockMovement['kind'], string>

export const COUNT_DIFFERENCE = {
  notFound: 'On file here, not found',
  otherShelf: 'Seen here, on file on another shelf',
  otherShop: 'Seen here, on file in another shop',
  inTransit: 'Seen here, on file as on its way',
  missing: 'Seen here, on file as missing',
  gone: 'Seen here, on file as empty or discarded',
} as const satisfies Record<NonNullable<StockCount['differences']>[number]['kind'], string>

export const COUNT_SETTLEMENT = {
  booked: 'Booked',
  changedSince: 'Dealt with before it was booked',
  nothingToBook: 'Nothing to book: throw it away',
} as const

export const BOND_STATE = {
  applied: 'Applied',
  clamped: 'Clamped',
  released: 'Released',
  abandoned: 'Abandoned',
} as const satisfies Record<Bond['state'], string>

export const INCIDENT = {
  earlyRelease: 'Released before handling strength',
  clampedAfterWorkTime: 'Clamped after the work time had run out',
  gateOverridden: 'Went on although a gate refused',
  appliedAgainstRefusal: 'Applied although a gate refused',
  leftWithAdhesive: 'Left with adhesive on it',
} as const satisfies Record<Incident['kind'], string>

export const ALERT = {
  expiredOnShelf: 'Expired on the shelf',
  openedPastOpenLife: 'Opened past open life',
  expiresSoon: 'Expires soon',
  belowReorderPoint: 'Time to order',
  noDispenserFits: 'No dispenser takes it',
  lotOnHold: 'Lot on hold',
  storageExcursion: 'Storage out of range',
  earlyRelease: 'Moved before handling strength',
  clampedAfterWorkTime: 'Clamped after work time',
  appliedAgainstRefusal: 'Applied although a gate refused',
  leftWithAdhesive: 'Left with adhesive on it',
  gateOverridden: 'Gate overridden',
  plannedMoveBeforeReady: 'Planned to move before ready',
  bayClash: 'Bay clash',
  sensorSilent: 'Thermometer silent',
  countDiffers: 'Count differs',
  reservedDies: 'Reserved cartridge expires before its job',
  notComputed: 'Cannot be computed',
  sensorDoubted: 'Thermometer doubted',
  sensorsDisagree: 'Thermometers disagree',
  sheetSlower: 'Data sheet became slower',
  workFails: 'Not done by itself',
} as const satisfies Record<Alert['kind'], string>

export const OPERATION = {
  prepare: 'Prepare',
  dryFit: 'Dry fit',
  bondAndClamp: 'Bond and clamp',
  cure: 'Cure',
  unclampAndDress: 'Unclamp and dress',
  weld: 'Weld or rivet',
  sealAndPrime: 'Seal and prime',
  paint: 'Paint',
  bake: 'Bake',
  cool: 'Cool',
  refit: 'Refit',
} as const satisfies Record<PlannedOperation['kind'], string>

export const BAY_ATTRIBUTE = {
  lift: 'Lift',
  frameBench: 'Frame bench',
  heat: 'Heat',
  dustFree: 'Dust-free',
} as const satisfies Record<Resource['attributes'][number], string>

export const SKILL = {
  body: 'Body',
  structural: 'Structural',
  aluminium: 'Aluminium',
  welding: 'Welding',
  paint: 'Paint',
  fitting: 'Fitting',
} as const satisfies Record<Resource['skills'][number], string>

export const DAY_EXCEPTION = {
  closed: 'Closed',
  absent: 'Away or out of use',
  overtime: 'Overtime',
} as const satisfies Record<DayException['kind'], string>

export const PRIORITY = {
  low: 'Low',
  normal: 'Normal',
  high: 'High',
  rush: 'Rush',
} as const satisfies Record<RepairOrder['priority'], string>

export const RESOURCE = {
  bay: 'Bay',
  oven: 'Oven',
  clampSet: 'Clamp set',
  technician: 'Technician',
} as const satisfies Record<Resource['kind'], string>

export const PURPOSE = { work: 'Work', bake: 'Bake' } as const satisfies Record<Booking['purpose'], string>

export const READING_SOURCE = { metalProbe: 'Metal probe', infrared: 'Infrared', bayAir: 'Bay air' } as const

export const INSTRUMENT = {
  metalProbe: 'Metal probe',
  infrared: 'Infrared thermometer',
  hygrometer: 'Hygrometer',
} as const satisfies Record<Instrument['kind'], string>

export const BASIS = {
  dataSheet: 'data sheet',
  interpolated: 'interpolated between data-sheet points',
  extrapolated: 'extrapolated beyond the data-sheet points',
  estimated: 'estimated from the doubling rule',
} as const

export const NEVER = {
  tooCold: 'Too cold to cure: no ready time while it stays so',
  beyondForecast: 'Later than the temperature forecast reaches',
  noTemperature: 'No forecast for this bay: each panel reading counts once it is added',
} as const

/** Choices for a select, from a table of words. */
export function choicesOf<Value extends string>(
  words: Record<Value, string>,
): { value: Value; label: string }[] {
  return (Object.keys(words) as Value[]).map((value) => ({ value, label: words[value] }))
}

export const SENSOR_DECISION = {
  retired: 'Taken out of use',
  doubted: 'Doubted',
  trusted: 'Trusted again',
  withdrawn: 'Readings withdrawn',
  wasFahrenheit: 'Readings were °F',
  wasCelsius: 'Readings were °C',
} as const
