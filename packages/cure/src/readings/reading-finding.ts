/**
 * What makes a reading doubtful: stable kinds with their figures, so that they can be stored, told in any unit
 * and asked about by name. Temperatures in degC.
 */
export type ReadingFinding =
  /** Outside what a panel or a room in use can be. */
  | { readonly kind: 'outOfRange'; readonly lowC: number; readonly highC: number }
  /** Reads like degF in a field of degC: `meantC` is what it would be then. */
  | { readonly kind: 'fahrenheit'; readonly meantC: number }
  /** Reads like degC in a field of degF: `meantC` is what it would be then. */
  | { readonly kind: 'celsius'; readonly meantC: number }
  /** Further from the last reading than metal, or air, gets in that time. */
  | {
      readonly kind: 'tooFast'
      readonly previousC: number
      readonly minutes: number
      readonly reachC: number
    }
  /** Far off both the reading before and the one after. */
  | { readonly kind: 'spike'; readonly betweenC: number }
  /** The same digits for hours, while other thermometers of the shop move, or for longer than it ever shows them. */
  | { readonly kind: 'stuck'; readonly hours: number; readonly sinceMs?: number }
  /** The same digits off the metal again, although the air must have moved it, or for the so-many-th time. */
  | {
      readonly kind: 'unchanged'
      readonly minutes: number
      readonly airC?: number
      readonly times?: number
    }
  /** Further above the reading before than this thermometer has ever risen from one to the next. */
  | { readonly kind: 'jumped'; readonly previousC: number; readonly mostC: number; readonly riseC: number }
  /** The bay's thermometer reads something else at the same time. */
  | { readonly kind: 'apart'; readonly otherC: number }
  /** Metal warmer than the warmest air it has been in. */
  | { readonly kind: 'aboveAir'; readonly airC: number }
  /** Metal that warms in air that is colder than it was. */
  | { readonly kind: 'warmsInColderAir'; readonly previousC: number; readonly airC: number }
  /** Entered when it no longer spoke for the time around it: a claim about the past. */
  | { readonly kind: 'late'; readonly minutes: number }
  /** The instrument's calibration had run out. */
  | { readonly kind: 'outOfCalibration' }
  /** The same value by the same hand a moment before: perhaps one measurement, sent twice. */
  | { readonly kind: 'sentTwice'; readonly seconds: number }
  /** Another value came for the same instant: the colder of the two is kept. */
  | { readonly kind: 'twoValues'; readonly otherC: number }

export type ReadingFindingKind = ReadingFinding['kind']

export const READING_FINDING_KINDS = [
  'outOfRange',
  'fahrenheit',
  'celsius',
  'tooFast',
  'spike',
  'stuck',
  'unchanged',
  'jumped',
  'apart',
  'aboveAir',
  'warmsInColderAir',
  'late',
  'outOfCalibration',
  'sentTwice',
  'twoValues',
] as const satisfies readonly ReadingFindingKind[]

/**
 * Findings that doubt the value itself: a second reading by somebody else, or by another instrument, bears it
 * out. What was entered late, sent twice or read by an instrument out of calibration stays in doubt.
 */
export function isOfValue({ kind }: ReadingFinding): boolean {
  return kind !== 'late' && kind !== 'outOfCalibration' && kind !== 'sentTwice'
}
