/** What instruments, and the people who read them, do wrong. */
export const LIES = [
  /** Nothing lies, in all the honest scenarios but `warmStart`: how often honest instruments are doubted. */
  'none',
  /** Nothing lies, and the metal comes in 4 to 16 degC above the air: one may ask about that. */
  'noneFromTheSun',
  'probeReadsWarm',
  'probeReadsCold',
  'probeStuck',
  /** As `probeReadsWarm`, and the air was read with another thermometer: nothing holds the probe against anything. */
  'probeReadsWarmAlone',
  /** And that other thermometer reads 3 to 6 degC cold, so that it and the bay's disagree. */
  'probeReadsWarmBesideColdAir',
  /** As `probeReadsWarm`, and the bay's logger is silent from an hour before the application to an hour after. */
  'probeReadsWarmInSilence',
  'airStuck',
  /** From two hours before the application on. */
  'airReadsWarm',
  /** As long as it has hung there: its history knows it no other way. */
  'airAlwaysReadsWarm',
  /** From within three hours after the application on. */
  'airTurnsWarm',
  /** As `airReadsWarm`, and as the air at the joint somebody wrote down what the bay's thermometer showed. */
  'airReadsWarmCopied',
  'airAlwaysReadsWarmCopied',
  'oneOfTwoReadsWarm',
  'degFAtApplication',
  'degFLater',
  'degFOfTheSensor',
  'uploadedLate',
  'backdated',
] as const
export type Lie = (typeof LIES)[number]

export const isOf = (lie: Lie, ...kinds: readonly Lie[]): boolean => kinds.includes(lie)

/** The lie has a size, 3 to 15 degC. */
export const isSized = (lie: Lie): boolean => /Reads(?:Warm|Cold)|TurnsWarm/.test(lie)
