export { apartAtJoint, comparedAtJoint, HAND_AIR_ACCURACY_C } from './air-at-joint.ts'
export { COPIED_C } from './proof.ts'
export type { AirAtJoint, AirRead, Compared, MetalReading } from './at-joint.ts'
export { acceptableFromMs } from './acceptable.ts'
export { applicationFaults, type ApplicationConditions, type ApplicationFault } from './application.ts'
export {
  fitArrhenius,
  fittedTime,
  GAS_CONSTANT,
  type ArrheniusFit,
  type FittedTime,
  type MeasuredTime,
} from './arrhenius-fit.ts'
export { bakeCurve, type BakeCurvePoint } from './bake-curve.ts'
export {
  judgeBake,
  type AgainstBake,
  type BakedBond,
  type BakeLimits,
  type BakeQuestion,
  type BakeVerdict,
} from './bake-limits.ts'
export type { BakeProgram, BakeRequest, OvenBond, OvenPanel } from './bake-request.ts'
export {
  beadAmount,
  beadAreaMm2,
  cartridgeReach,
  USUAL_WASTE_SHARE,
  type BeadAmount,
  type BeadPlan,
  type BeadShape,
  type CartridgeReach,
} from './bead.ts'
export { bondCurve, type BondCurveOptions } from './bond-curve.ts'
export {
  dataSheetFaults,
  MILESTONES,
  PLAUSIBLE_TEMPERATURE_C,
  type DataSheet,
  type DataSheetFault,
  type Milestone,
  type SheetPoint,
} from './data-sheet.ts'
export { DEW_POINT_MARGIN_C, dewPointC, relativeHumidityPercent } from './dew-point.ts'
export type {
  BondCurvePoint,
  BondEstimate,
  MilestoneEstimate,
  ReadyInstant,
  ThreeLines,
} from './estimate-figures.ts'
export { estimateBond, estimateFrom, type BondHistory, type Outlook } from './estimate.ts'
export { coldestMetalAhead, type ColdestMetal } from './careful/coldest-ahead.ts'
export { limitsOfPlace, UNKNOWN_PLACE, type PlaceLimits } from './careful/place.ts'
export { ACTIVATION_ENERGY_KJ_PER_MOL, type AdhesiveChemistry } from './activation-range.ts'
export { fallbackBandC, forecastBayTemperature, type ForecastOptions, type HeatedHours } from './forecast.ts'
export type { PastTemperature } from './forecast-grid.ts'
export {
  attemptState,
  jointStanding,
  worstStanding,
  type Attempt,
  isHeldState,
  type Departure,
  type HeldState,
  type JointStanding,
  type JointState,
} from './joint-state.ts'
export { MATERIALS, type Material, type MaterialName } from './materials.ts'
export { measuredAgain } from './measure-again.ts'
export type { EstimateNote } from './notes.ts'
export { bakeWindow, type BakeCaution, type BakeRefusal, type BakeWindow } from './oven.ts'
export {
  HIGHEST_BIOT,
  minutesToTemperature,
  panelArcs,
  panelTimeConstant,
  peakC,
  radiativeCoefficient,
  type AirPoint,
  type Panel,
  type TimeConstant,
} from './panel-heat.ts'
export { addReading, addReadings, startProgress, type ProgressState } from './progress.ts'
export {
  rateAt,
  rateCurve,
  timeAtTemperature,
  weakerBasis,
  type Basis,
  type RateCurve,
  type TimeAtTemperature,
} from './rate-curve.ts'
export { STALE_LIMIT_MINUTES, type ForecastPoint, type Reading, type ReadingSource } from './reading.ts'
export { apartOnAverage } from './apart-on-average.ts'
export { combineAir, type AirSample, type Thermometer } from './bay-air.ts'
export { habitsOf, type AirHabits } from './air-habits.ts'
export { judgeAir, type AirContext, type Jumped } from './air-quality.ts'
export {
  agree,
  disagree,
  judgeMetal,
  judgeRoomAir,
  metalReach,
  type Claim,
  type Known,
  type MetalContext,
} from './reading-quality.ts'
export {
  isOfValue,
  READING_FINDING_KINDS,
  type ReadingFinding,
  type ReadingFindingKind,
} from './reading-finding.ts'
export {
  SHEET_QUESTION_KINDS,
  sheetQuestions,
  type SheetQuestion,
  type SheetQuestionKind,
} from './sheet-questions.ts'
export { strengthShare, type StrengthPoint } from './strength-picture.ts'
export { arcC, type TemperatureArc } from './temperature-arc.ts'
export { fitTimeConstant, type FittedTimeConstant, type LoggedTemperature } from './time-constant-fit.ts'
export { creditedFromMs, TOLD_LATE_MINUTES, toldLateMinutes } from './told-late.ts'
export { whatWouldHelp, type Help, type Warming, type WarmingLimit, type Wish } from './what-would-help.ts'
