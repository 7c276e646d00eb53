/** What was bonded, how far it has cured, and whether it may be moved. What follows is all that other modules may call. */

export {
  bondRow,
  bondsOfRepairOrder,
  runningBonds,
  runningBondsOf,
  type BondRow,
} from './estimates/bond-store.ts'
export type { BondChanged } from './bonds/events.ts'
export { requireNotElsewhere } from './bonds/place-vehicle.ts'
export { recheckBySheets } from './bonds/recheck-by-sheets.ts'
export { estimateOf } from './estimates/history.ts'
export { keptEstimateOf, lookForCauses } from './estimates/kept-estimate.ts'
export { slowerSentence } from './estimates/judging-sheets.ts'
export { latest, moveCheckOf, toReady } from './estimates/move-check.ts'
export { computed } from './estimates/named-fault.ts'
export { OVEN_AIR_W_PER_M2K, panelConstant, panelTauMinutes, STILL_AIR_W_PER_M2K } from './estimates/panel.ts'
export { toBond, toBonds } from './estimates/to-bond.ts'
export { refusalReason, type BakeReader } from './ovens/bake-sentences.ts'
export { ovenWindow, PROGRAM_FIELDS, programOf, storedProgram } from './ovens/oven-window.ts'
export { addJoint } from './repairs/joints.ts'
export { addRepairOrder } from './repairs/repair-orders.ts'
export { bayForecast } from './temperature/bay-temperature.ts'
export { airReadAt } from './estimates/compared-air.ts'
export { asks, findingSentence, findingsOf } from './temperature/findings.ts'
export { selectSensors } from './temperature/sensors.ts'
