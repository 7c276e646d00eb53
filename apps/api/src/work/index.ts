/** What is bonded with what: products and their data sheets, joints and where they stand. What follows is all that other modules may call. */

export type { SheetApproved } from './catalogue/events.ts'
export { learnGtin } from './catalogue/gtins.ts'
export {
  APPROVED,
  countsOn,
  figuresOf,
  isApproved,
  newestFirst,
  sheetOn,
  toSheet,
  withApprovedSheets,
  withPoints,
  type WholeSheet,
} from './catalogue/sheets.ts'
export { sheetFault } from './catalogue/sheet-sentences.ts'
export { asksOfDisposal } from './joints/disposal.ts'
export { amountNeededMl, jointRow, lockedJoint, type JointRow } from './joints/joint-store.ts'
export { procedureColumns, procedureOf } from './joints/procedure.ts'
export { heldReason, heldReasons } from './joints/standing-sentences.ts'
export { ATTEMPT_ROW, heldBy, isRunning, jointsOf, standingOf, stateOf } from './joints/standing.ts'
export { IS_STILL_ON, isStillOn, STILL_ON } from './joints/still-on.ts'
