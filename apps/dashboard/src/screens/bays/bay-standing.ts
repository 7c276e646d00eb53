import type { ServerNow } from '../../api/server-clock.ts'
import type { BayBoardRow, Bond } from '../../api/types.ts'
import { bondClock, governing, type BondClock } from '../../features/bonds/bond-clock.ts'
import type { Tone } from '../../ui/answers/tone.ts'
import { t } from '../../lib/reader.ts'

export interface ClockedBond {
  readonly bond: Bond
  readonly clock: BondClock
}

export interface BayStanding {
  readonly tone: Tone
  readonly word: string
  /** The bond that decides, and what its clock counts down to. */
  readonly governing: ClockedBond | undefined
  readonly counting: {
    readonly toMs: number
    readonly towards: 'deadline' | 'ready'
    readonly label: string
  } | null
  readonly bonds: readonly ClockedBond[]
  /** Nothing stands there, and nothing is booked now. */
  readonly isFree: boolean
  /** By the clock here it is ready, and the service has not said so: nothing of that is shown. */
  readonly isAsking: boolean
}

/** What a bay says across the shop: an open joint before everything, then curing, ready, taken, free. */
export function bayStanding(
  row: Pick<BayBoardRow, 'bonds' | 'current' | 'held'>,
  now: Pick<ServerNow, 'earliestMs' | 'latestMs'>,
  isInDoubt: boolean,
): BayStanding {
  const bonds = row.bonds.map((bond) => ({ bond, clock: bondClock(bond, now) }))
  const first = governing(bonds)
  const say = (tone: Tone, word: string, counting: BayStanding['counting'] = null): BayStanding => ({
    tone,
    word,
    governing: first,
    counting,
    bonds,
    isAsking: false,
    isFree: false,
  })
  const clock = first?.clock
  if (row.held.length > 0 && !bonds.some(({ clock: { phase } }) => phase === 'open' || phase === 'late'))
    return say('danger', t('bays.mustBeInspectedOrMadeAgain'))
  if (clock === undefined)
    return row.current === null
      ? { ...say('quiet', t('bays.free')), isFree: true }
      : say('quiet', t('bays.inWork'))
  if (clock.phase === 'late') return say('danger', t('bays.workTimeIsOverJointNotClosed'))
  if (clock.phase === 'open') {
    const counting =
      clock.workTimeEndsMs === null
        ? null
        : { toMs: clock.workTimeEndsMs, towards: 'deadline' as const, label: t('bays.toCloseTheJoint') }
    return say('warning', t('bays.jointOpen'), counting)
  }
  if (clock.phase === 'curing') {
    const { readyAt } = clock
    if (readyAt.kind === 'at')
      return say('curing', t('bays.curing'), {
        toMs: readyAt.atMs,
        towards: 'ready',
        label: t('bays.untilItMayBeMoved'),
      })
    return say('warning', t('bays.curingNoReadyTime'))
  }
  // By the clock here it is ready; whether it may be moved is the service's to say, and now.
  const isLacking = row.bonds.some(({ moveCheck }) =>
    moveCheck.reasons.some(({ code }) => code !== 'handling-strength'),
  )
  if (isLacking) return say('warning', t('bays.curedButSomethingIsMissing'))
  const isSure = !isInDoubt && row.bonds.every(({ moveCheck }) => moveCheck.mayMove)
  return isSure
    ? say('ready', t('bays.mayBeMoved'))
    : { ...say('curing', t('bays.askingTheService')), isAsking: true }
}

interface ForecastPoint {
  readonly at: string
  readonly expectedC: number
  readonly lowC: number
}

/** The coldest that the bay is expected to get within the forecast: tonight's cold, and when. */
export function coldestAhead(forecast: readonly ForecastPoint[]): ForecastPoint | undefined {
  return forecast.reduce<ForecastPoint | undefined>(
    (coldest, point) => (coldest === undefined || point.expectedC < coldest.expectedC ? point : coldest),
    undefined,
  )
}
