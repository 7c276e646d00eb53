import {
  LIVE_ALIVE_MS,
  LIVE_EVENT_NAMES,
  LIVE_PATH,
  OF_THE_VEHICLE,
  ReadingFindingKind,
  ROUTES as CONTRACTS,
  SheetQuestionKind,
  UNATTENDED,
} from '@clampclock/contracts'

/**
 * What the browser needs of the contracts, as plain values: the build evaluates this module and ships the outcome, so
 * that no schema, nor the library that reads them, is sent to a phone (docs/decisions/0194). Every export must be JSON.
 */
export { LIVE_ALIVE_MS, LIVE_EVENT_NAMES, LIVE_PATH, OF_THE_VEHICLE, UNATTENDED }

/** The schemas are there for the types alone, and never at run time: a call needs the method and the path. */
export const ROUTES = Object.fromEntries(
  Object.entries(CONTRACTS).map(([name, { method, path }]) => [name, { method, path }]),
) as unknown as typeof CONTRACTS

export const READING_FINDING_KINDS = ReadingFindingKind.options
export const SHEET_QUESTION_KINDS = SheetQuestionKind.options
