export {
  effectiveExpiry,
  SOON_DAYS,
  urgency,
  type CartridgeLife,
  type EffectiveExpiry,
  type ExpiryLimit,
  type Urgency,
} from './effective-expiry.ts'
export { lotUse, type LotCartridge, type LotUse } from './lot-use.ts'
export { warmStorageLossMs, type StorageReading, type StorageRule } from './storage-life.ts'
export {
  NEVER_OVERRIDABLE,
  usabilityFaults,
  type UsabilityFault,
  type UsabilityQuestion,
} from './usability.ts'
export { allocate, type Allocation, type Candidate, type Need, type Share } from './allocation.ts'
export { croston, demandProbability, type DemandRate, type Smoothing } from './demand.ts'
export {
  combinedMeanKineticC,
  meanKineticTemperatureC,
  meanKineticTemperatureOfC,
} from './mean-kinetic-temperature.ts'
export { normalCdf, normalDensity, normalLoss, normalQuantile } from './normal.ts'
export {
  economicOrderQuantity,
  fillRate,
  newsvendor,
  reorderLevels,
  type ReorderInput,
  type ReorderLevels,
} from './reorder.ts'
export { checkDigit, gtin14, hasCheckDigit } from './gs1/check-digit.ts'
export { dateOfYymmdd } from './gs1/date.ts'
export { parseDigitalLink } from './gs1/digital-link.ts'
export { parseElementString, type Elements, type Parsed } from './gs1/element-string.ts'
export { readScan, type Label, type Scan } from './gs1/read-scan.ts'
export {
  bookedBetween,
  dailyDemand,
  meanPerDayMl,
  type BookedUse,
  type DailyDemand,
} from './replenish/daily-demand.ts'
export { orderLevels, type OrderLevels, type SupplyTerms } from './replenish/order-levels.ts'
export { wasteForecast, type Perishable, type Waste } from './replenish/waste-forecast.ts'
export { planTransfers, type MilpSolver, type TransferPlan } from './replenish/transfers.ts'
export type {
  ExpectedUse,
  Lane,
  Transfer,
  TransferableLot,
  TransferProblem,
} from './replenish/transfer-problem.ts'
export {
  computedPolicy,
  emptyShelfPolicy,
  fixedMinimumPolicy,
  simulatePolicy,
  type OrderPolicy,
  type PolicyResult,
  type ShelfView,
  type SimulatedShop,
} from './replenish/simulate.ts'
export { CODE_LETTERS, ownLabelText, readOwnLabel } from './own-label.ts'
export { fitName, type FittedName, type Measure, type NameSpace } from './label-name.ts'
export { LONGEST_MEASURED_GAP_MS, measuredMs, type Stretch } from './measured-share.ts'
export { LABEL_SHEETS, labelPlace, type LabelSheet } from './label-sheet.ts'
export { epcisDocument } from './epcis/document.ts'
export { holdEvent, movementEvents, type EpcisEvent } from './epcis/event.ts'
export type { TracedHold, TracedLot, TracedMovement } from './epcis/facts.ts'
export type { Addresses } from './epcis/identify.ts'
