/** What adhesive there is, for whom it is kept and what is ordered. What follows is all that other modules may call. */

export {
  cartridgeRow,
  expiryOf,
  lockedCartridge,
  selectCartridges,
  type CartridgeRow,
} from './cartridges/cartridge-store.ts'
export { expirySentence } from './cartridges/expiry-sentence.ts'
export { faultSentence, openLocked, usability } from './cartridges/cartridges.ts'
export { useLocked } from './cartridges/use.ts'
export { DISPOSED_AT, holdAfterExcursion } from './lots/holds.ts'
export { refreshStorageLife } from './lots/storage-life.ts'
export { refreshLevels } from './replenishment/keep-levels.ts'
export { faultsOf, type Kept } from './reservations/faults.ts'
export { endForBond, reservedReasons } from './reservations/for-bond.ts'
export { endForOrder } from './reservations/for-order.ts'
export { nextBooking, whenNeeded } from './reservations/needed-at.ts'
export { openReservations, THE_PLAN } from './reservations/reservation-store.ts'
export { endReservations, lockJoints, reserve, type By } from './reservations/reserve.ts'
