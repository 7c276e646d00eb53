export { apartAtJoint, comparedAtJoint, HAND_AIR_ACCURACY_C } from './readings/air-at-joint.ts'
export { COPIED_C } from './readings/proof.ts'
export type { AirAtJoint, AirRead, Compared, MetalReading } from './readings/at-joint.ts'
export { acceptableFromMs } from './estimate/acceptable.ts'
export { applicationFaults, type ApplicationConditions, type ApplicationFault } from './joint/application.ts'
export {
  fitArrhenius,
  fittedTime,
  GAS_CONSTANT,
  type ArrheniusFit,
  type FittedTime,
  type MeasuredTime,
} from './sheet/arrhenius-fit.ts'
export { bakeCurve, type BakeCurvePoint } from './oven/bake-curve.ts'
export {
  judgeBake,
  type AgainstBake,
  type BakedBond,
  type BakeLimits,
  type BakeQuestion,
  type BakeVerdict,
} from './oven/bake-limits.ts'
export type { BakeProgram, BakeRequest, OvenBond, OvenPanel } from './oven/bake-request.ts'
export {
  beadAmount,
  beadAreaMm2,
  cartridgeReach,
  USUAL_WASTE_SHARE,
  type BeadAmount,
  type BeadPlan,
  type BeadShape,
  type CartridgeReach,
} from './joint/bead.ts'
export { bondCurve, type BondCurveOptions } from './estimate/bond-curve.ts'
export {
  dataSheetFaults,
  MILESTONES,
  PLAUSIBLE_TEMPERATURE_C,
  type DataSheet,
  type DataSheetFault,
  type Milestone,
  type SheetPoint,
} from './sheet/data-sheet.ts'
export { DEW_POINT_MARGIN_C, dewPointC, relativeHumidityPercent } from './joint/dew-point.ts'
export type {
  BondCurvePoint,
  BondEstimate,
  MilestoneEstimate,
  ReadyInstant,
  ThreeLines,
} from './estimate/estimate-figures.ts'
export { estimateBond, estimateFrom, type BondHistory, type Outlook } from './estimate/estimate.ts'
export { coldestMetalAhead, type ColdestMetal } from './careful/coldest-ahead.ts'
export { limitsOfPlace, UNKNOWN_PLACE, type PlaceLimits } from './careful/place.ts'
export { ACTIVATION_ENERGY_KJ_PER_MOL, type AdhesiveChemistry } from './sheet/activation-range.ts'
export {
  fallbackBandC,
  forecastBayTemperature,
  type ForecastOptions,
  type HeatedHours,
} from './temperature/forecast.ts'
export type { PastTemperature } from './temperature/forecast-grid.ts'
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
} from './joint/joint-state.ts'
export { MATERIALS, type Material, type MaterialName } from './temperature/materials.ts'
export { measuredAgain } from './estimate/measure-again.ts'
export type { EstimateNote } from './readings/notes.ts'
export { bakeWindow, type BakeCaution, type BakeRefusal, type BakeWindow } from './oven/oven.ts'
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
} from './temperature/panel-heat.ts'
export { addReading, addReadings, startProgress, type ProgressState } from './estimate/progress.ts'
export {
  rateAt,
  rateCurve,
  timeAtTemperature,
  weakerBasis,
  type Basis,
  type RateCurve,
  type TimeAtTemperature,
} from './sheet/rate-curve.ts'
export {
  STALE_LIMIT_MINUTES,
  type ForecastPoint,
  type Reading,
  type ReadingSource,
} from './readings/reading.ts'
export { apartOnAverage } from './readings/apart-on-average.ts'
export { combineAir, type AirSample, type Thermometer } from './readings/bay-air.ts'
export { habitsOf, type AirHabits } from './readings/air-habits.ts'
export { judgeAir, type AirContext, type Jumped } from './readings/air-quality.ts'
export {
  agree,
  disagree,
  judgeMetal,
  judgeRoomAir,
  metalReach,
  type Claim,
  type Known,
  type MetalContext,
} from './readings/reading-quality.ts'
export {
  isOfValue,
  READING_FINDING_KINDS,
  type ReadingFinding,
  type ReadingFindingKind,
} from './readings/reading-finding.ts'
export {
  SHEET_QUESTION_KINDS,
  sheetQuestions,
  type SheetQuestion,
  type SheetQuestionKind,
} from './sheet/sheet-questions.ts'
export { strengthShare, type StrengthPoint } from './estimate/strength-picture.ts'
export { arcC, type TemperatureArc } from './temperature/temperature-arc.ts'
export {
  fitTimeConstant,
  type FittedTimeConstant,
  type LoggedTemperature,
} from './temperature/time-constant-fit.ts'
export { creditedFromMs, TOLD_LATE_MINUTES, toldLateMinutes } from './readings/told-late.ts'
export {
  whatWouldHelp,
  type Help,
  type Warming,
  type WarmingLimit,
  type Wish,
} from './estimate/what-would-help.ts'
