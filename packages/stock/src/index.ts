export {
  effectiveExpiry,
  SOON_DAYS,
  urgency,
  type CartridgeLife,
  type EffectiveExpiry,
  type ExpiryLimit,
  type Urgency,
} from './effective-expiry.ts'
export { warmStorageLossMs, type StorageReading, type StorageRule } from './storage-life.ts'
export {
  NEVER_OVERRIDABLE,
  usabilityFaults,
  type UsabilityFault,
  type UsabilityQuestion,
} from './usability.ts'
