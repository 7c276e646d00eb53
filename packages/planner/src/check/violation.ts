/** A rule that a plan breaks. */
export interface Violation {
  readonly rule:
    | 'unplanned'
    | 'form'
    | 'mode'
    | 'fixed'
    | 'window'
    | 'duration'
    | 'calendar'
    | 'unavailable'
    | 'capacity'
    | 'batch'
    | 'setup'
    | 'lag'
    | 'maxLag'
    | 'hold'
  readonly taskIds: readonly string[]
  /** Where it is broken, of a rule about a resource. */
  readonly resourceId: string | null
  /** The first minute at which it is broken; null where no minute says it. */
  readonly at: number | null
  /**
   * How far it is broken, to be compared with the same rule about the same tasks only: minutes too soon, too late or
   * lying over each other, units too many times minutes, work left; 1 where there is no more or less.
   */
  readonly by: number
  readonly message: string
}

/** Takes down that a rule is broken. */
export type Report = (
  rule: Violation['rule'],
  taskIds: readonly string[],
  message: string,
  more?: Partial<Pick<Violation, 'at' | 'by' | 'resourceId'>>,
) => void
