import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  attemptState,
  isHeldState,
  jointStanding,
  worstStanding,
  type Attempt,
  type Departure,
} from './joint-state.ts'

const attempt = (
  stage: Attempt['stage'],
  departures: readonly [Departure['kind'], Departure['disposition']?][] = [],
  isReady = false,
): Attempt => ({
  stage,
  isReady,
  departures: departures.map(([kind, disposition = null]) => ({ kind, disposition })),
})

/** Left: what happened to the joint; right: where it stands, and whether its vehicle may be moved. */
const TABLE: readonly [string, readonly Attempt[], string, boolean][] = [
  ['nothing', [], 'neverBonded', true],
  ['applied', [attempt('applied')], 'open', false],
  ['applied, cured without a clamp', [attempt('applied', [], true)], 'open', false],
  ['clamped', [attempt('clamped')], 'curing', false],
  ['clamped and cured', [attempt('clamped', [], true)], 'ready', true],
  ['released in time', [attempt('released')], 'releasedReady', true],
  ['released early', [attempt('released', [['earlyRelease']])], 'releasedEarly', false],
  [
    'released early, accepted',
    [attempt('released', [['earlyRelease', 'inspectedAndAccepted']])],
    'accepted',
    true,
  ],
  ['released early, to be redone', [attempt('released', [['earlyRelease', 'redone']])], 'toBeRedone', false],
  [
    'redone, the next one curing',
    [attempt('released', [['earlyRelease', 'redone']]), attempt('clamped')],
    'curing',
    false,
  ],
  [
    'redone, the next one released ready',
    [attempt('released', [['earlyRelease', 'redone']]), attempt('released')],
    'releasedReady',
    true,
  ],
  [
    'released early, bonded over before anybody looked',
    [attempt('released', [['earlyRelease']]), attempt('released')],
    'releasedEarly',
    false,
  ],
  ['clamped late', [attempt('clamped', [['clampedAfterWorkTime']], true)], 'closedLate', false],
  [
    'clamped in time, and moved late',
    [attempt('clamped', [['movedAfterWorkTime']], true)],
    'closedLate',
    false,
  ],
  [
    'moved late and accepted, but clamped late',
    [attempt('clamped', [['movedAfterWorkTime', 'inspectedAndAccepted'], ['clampedAfterWorkTime']], true)],
    'closedLate',
    false,
  ],
  [
    'clamped late, accepted while it cures',
    [attempt('clamped', [['clampedAfterWorkTime', 'inspectedAndAccepted']])],
    'curing',
    false,
  ],
  [
    'clamped late, said to be redone while it cures',
    [attempt('clamped', [['clampedAfterWorkTime', 'redone']], true)],
    'toBeRedone',
    false,
  ],
  [
    'against a refusal, cured',
    [attempt('clamped', [['appliedAgainstRefusal']], true)],
    'appliedAgainstRefusal',
    false,
  ],
  [
    'against a refusal, released and accepted',
    [attempt('released', [['appliedAgainstRefusal', 'inspectedAndAccepted']])],
    'accepted',
    true,
  ],
  ['abandoned', [attempt('abandoned', [['leftWithAdhesive']])], 'abandoned', false],
  ['lifted', [attempt('lifted', [['leftWithAdhesive']])], 'lifted', false],
  [
    'abandoned, inspected and accepted',
    [attempt('abandoned', [['leftWithAdhesive', 'inspectedAndAccepted']])],
    'accepted',
    true,
  ],
  ['lifted, then released ready', [attempt('lifted'), attempt('released')], 'releasedReady', true],
  ['released ready, bonded again and lifted', [attempt('released'), attempt('lifted')], 'lifted', false],
  [
    'late and abandoned, the next one released ready',
    [attempt('abandoned', [['clampedAfterWorkTime'], ['leftWithAdhesive']]), attempt('released')],
    'releasedReady',
    true,
  ],
]

describe('jointStanding', () => {
  it.each(TABLE)('%s', (_, attempts, state, mayMove) => {
    expect(jointStanding(attempts)).toMatchObject({ state, mayMove })
  })
})

describe('a joint that is finished', () => {
  it.each(TABLE)('%s', (_, attempts, state) => {
    const isFinished = ['neverBonded', 'releasedReady', 'accepted'].includes(state)
    expect(jointStanding(attempts).isFinished).toBe(isFinished)
  })

  it('says of which attempt it speaks: the last of those that stand alike, the gravest of all', () => {
    expect(jointStanding([]).attempt).toBeNull()
    expect(jointStanding([attempt('lifted'), attempt('released')]).attempt).toBe(1)
    const early = attempt('released', [['earlyRelease']])
    expect(jointStanding([early, attempt('released')]).attempt).toBe(0)
    expect(jointStanding([early, early, attempt('lifted')]).attempt).toBe(1)
  })
})

describe('departures that do not belong together', () => {
  it.each<[string, Attempt, string]>([
    [
      'accepted for what was left on it, with a late clamp that nobody answered for',
      attempt('abandoned', [['leftWithAdhesive', 'inspectedAndAccepted'], ['clampedAfterWorkTime']]),
      'closedLate',
    ],
    [
      'accepted for what was left on it, to be redone for another reason',
      attempt('abandoned', [
        ['leftWithAdhesive', 'inspectedAndAccepted'],
        ['clampedAfterWorkTime', 'redone'],
      ]),
      'toBeRedone',
    ],
    [
      'abandoned, accepted for something else than what was left on it',
      attempt('abandoned', [['clampedAfterWorkTime', 'inspectedAndAccepted'], ['leftWithAdhesive']]),
      'abandoned',
    ],
    [
      'lifted, accepted for something else than what was left on it',
      attempt('lifted', [['clampedAfterWorkTime', 'inspectedAndAccepted'], ['leftWithAdhesive']]),
      'lifted',
    ],
    ['released with adhesive left on it', attempt('released', [['leftWithAdhesive']]), 'abandoned'],
    [
      'early and late: the early release first',
      attempt('released', [['clampedAfterWorkTime'], ['earlyRelease']]),
      'releasedEarly',
    ],
    [
      'late and against a refusal: the refusal first',
      attempt('released', [['clampedAfterWorkTime'], ['appliedAgainstRefusal']]),
      'appliedAgainstRefusal',
    ],
    [
      'redone for one thing, open for another',
      attempt('released', [['clampedAfterWorkTime', 'redone'], ['earlyRelease']]),
      'releasedEarly',
    ],
    [
      'redone for one thing, accepted for another',
      attempt('released', [
        ['clampedAfterWorkTime', 'redone'],
        ['earlyRelease', 'inspectedAndAccepted'],
      ]),
      'toBeRedone',
    ],
  ])('%s', (_, one, state) => {
    expect(attemptState(one)).toBe(state)
  })
})

/** From the state that holds a vehicle the most, pair by pair as joints of one vehicle. */
const GRAVEST_FIRST: readonly (readonly Attempt[])[] = [
  [attempt('released', [['earlyRelease']])],
  [attempt('clamped', [['appliedAgainstRefusal']])],
  [attempt('clamped', [['clampedAfterWorkTime']])],
  [attempt('lifted')],
  [attempt('abandoned')],
  [attempt('released', [['earlyRelease', 'redone']])],
  [attempt('applied')],
  [attempt('clamped')],
  [attempt('clamped', [], true)],
  [attempt('released', [['earlyRelease', 'inspectedAndAccepted']])],
  [attempt('released')],
  [],
]

describe('worstStanding', () => {
  it('is that of the gravest joint, in whatever order they come', () => {
    const standings = GRAVEST_FIRST.map((attempts) => jointStanding(attempts))
    for (const [i, grave] of standings.entries()) {
      for (const lighter of standings.slice(i + 1)) {
        expect(worstStanding([grave, lighter])?.state).toBe(grave.state)
        expect(worstStanding([lighter, grave])?.state).toBe(grave.state)
      }
    }
    expect(worstStanding([])).toBeUndefined()
  })

  it('holds for a person what no waiting mends', () => {
    expect(GRAVEST_FIRST.map((attempts) => isHeldState(jointStanding(attempts).state))).toEqual([
      ...Array.from({ length: 6 }, () => true),
      ...Array.from({ length: 6 }, () => false),
    ])
  })
})

const departure = fc.record({
  kind: fc.constantFrom<Departure['kind']>(
    'earlyRelease',
    'clampedAfterWorkTime',
    'movedAfterWorkTime',
    'appliedAgainstRefusal',
    'leftWithAdhesive',
  ),
  disposition: fc.constantFrom<Departure['disposition']>(null, 'inspectedAndAccepted', 'redone'),
})
const anyAttempt: fc.Arbitrary<Attempt> = fc.record({
  stage: fc.constantFrom<Attempt['stage']>('applied', 'clamped', 'released', 'abandoned', 'lifted'),
  isReady: fc.boolean(),
  departures: fc.array(departure, { maxLength: 4 }),
})

describe('any history of a joint', () => {
  it('has a standing, and one that waits for a person never lets the vehicle move', () => {
    fc.assert(
      fc.property(fc.array(anyAttempt, { maxLength: 5 }), (attempts) => {
        const { state, mayMove, isFinished } = jointStanding(attempts)
        if (isHeldState(state)) expect(mayMove).toBe(false)
        if (isFinished) expect(mayMove).toBe(true)
      }),
    )
  })

  it('does not let the vehicle move while its last attempt runs and is not ready', () => {
    fc.assert(
      fc.property(
        fc.array(anyAttempt, { maxLength: 4 }),
        anyAttempt.map((last) => ({ ...last, stage: 'clamped' as const, isReady: false })),
        (before, last) => {
          expect(jointStanding([...before, last]).mayMove).toBe(false)
        },
      ),
    )
  })

  it('keeps waiting for whoever must look at an early release, whatever is bonded over it', () => {
    const early = attempt('released', [['earlyRelease']])
    fc.assert(
      fc.property(fc.array(anyAttempt, { maxLength: 4 }), fc.nat({ max: 4 }), (attempts, at) => {
        const all = attempts.toSpliced(Math.min(at, attempts.length), 0, early)
        expect(jointStanding(all).mayMove).toBe(false)
      }),
    )
  })

  it('is no better off for a departure that nobody disposed of', () => {
    const open = departure.map(({ kind }) => ({ kind, disposition: null }))
    fc.assert(
      fc.property(anyAttempt, open, (one, more) => {
        const worse = { ...one, departures: [...one.departures, more] }
        const [before, after] = [jointStanding([one]), jointStanding([worse])]
        expect(worstStanding([before, after])!.mayMove).toBe(after.mayMove)
      }),
    )
  })

  it('says of every attempt where it stands by itself', () => {
    fc.assert(
      fc.property(anyAttempt, (one) => {
        expect(jointStanding([one]).state).toBe(attemptState(one))
      }),
    )
  })
})
