import { message } from '@clampclock/messages'
import { sentences } from '../../foundation/words/params.ts'
import type { ProblemReason, ReadingFindingKind } from '@clampclock/contracts'
import {
  HAND_AIR_ACCURACY_C,
  isOfValue,
  judgeMetal,
  judgeRoomAir,
  type Claim,
  type Known,
  type ReadingFinding,
} from '@clampclock/cure'
import type { Tx } from '../../foundation/database/database.ts'
import { ProblemError } from '../../foundation/problems/problem-error.ts'
import { isCalibratedAt, type InstrumentRow } from '../../foundation/shops/instruments.ts'
import { bayTemperature } from '../temperature/bay-temperature.ts'
import { findingSentence } from '../temperature/findings.ts'
import type { Application } from './gates.ts'

interface Place {
  readonly shop: { readonly timeZone: string; readonly temperatureUnit: string }
  readonly bayId: string | null
  readonly repairOrderId: string
  /** When the adhesive went on: what was on file of the air by then is no claim about the joint, however late it came. */
  readonly appliedAt: Date
  /** The air as it was read by hand at the joint then, degC. */
  readonly airAtJointC: number
}

interface Taken {
  readonly at: Date
  readonly temperatureC: number
  readonly accuracyC: number
  readonly source: 'metalProbe' | 'infrared'
  readonly instrument: InstrumentRow | null
}

/** What a panel can have been near at an instant: hours, since that is how long metal keeps warm. */
const AROUND_MS = 4 * 3_600_000
/** The air at the joint and that of the bay were read of the same air within this. */
const TOGETHER_MS = 30 * 60_000
/** A vehicle out of the oven is cold again after this. Common practice, no source. */
const BAKED_MS = 12 * 3_600_000

/** What makes a panel reading doubtful. `metal` and `byTheSame` are of the same joint (packages/cure, MetalContext). */
export async function judgePanel(
  tx: Tx,
  place: Place,
  { at, temperatureC, accuracyC, source, instrument }: Taken,
  earlier: { readonly metal: readonly Known[]; readonly byTheSame: readonly Known[] },
  now: Date,
): Promise<readonly ReadingFinding[]> {
  const { shop, bayId, repairOrderId, appliedAt } = place
  const until = instrument?.calibratedUntil ?? null
  const claim: Claim = {
    atMs: at.getTime(),
    enteredAtMs: now.getTime(),
    temperatureC,
    accuracyC,
    source,
    ...(until === null ? {} : { inCalibration: isCalibratedAt(until, at, shop.timeZone) }),
  }
  return judgeMetal(claim, {
    ...earlier,
    air:
      bayId === null ? airByHand(place, at) : await airAround(tx, bayId, shop.timeZone, at, now, appliedAt),
    wasBaked: await wasBaked(tx, repairOrderId, at),
  })
}

/** What the bay's thermometers said of the hours before, as far as nobody doubts it; the warmer and the colder of two. */
async function airAround(
  tx: Tx,
  bayId: string | null,
  timeZone: string,
  at: Date,
  now: Date,
  knownBy: Date,
): Promise<Known[]> {
  if (bayId === null) return []
  const from = new Date(at.getTime() - AROUND_MS)
  const { readings } = await bayTemperature(tx, bayId, timeZone, from, now, knownBy)
  return readings
    .filter(({ atMs, suspect }) => !suspect && atMs <= at.getTime())
    .flatMap(({ atMs, temperatureC, accuracyC, lowC, highC }) =>
      lowC === undefined || highC === undefined
        ? [{ atMs, temperatureC, accuracyC }]
        : [lowC, highC].map((edgeC) => ({ atMs, temperatureC: edgeC, accuracyC: 0 })),
    )
}

/** Where no bay is named there is the air that was read beside the joint, for as long as it speaks for it. */
function airByHand({ appliedAt, airAtJointC }: Place, at: Date): Known[] {
  const sinceMs = at.getTime() - appliedAt.getTime()
  if (sinceMs < 0 || sinceMs > TOGETHER_MS) return []
  return [{ atMs: appliedAt.getTime(), temperatureC: airAtJointC, accuracyC: HAND_AIR_ACCURACY_C }]
}

async function wasBaked(tx: Tx, repairOrderId: string, at: Date): Promise<boolean> {
  const bakes = await tx.booking.count({
    where: {
      repairOrderId,
      purpose: 'bake',
      cancelledAt: null,
      startsAt: { lte: at },
      endsAt: { gte: new Date(at.getTime() - BAKED_MS) },
    },
  })
  return bakes > 0
}

/** What makes the air that was read at the joint doubtful, beside what the bay's thermometer says. */
async function judgeAirAtJoint(
  tx: Tx,
  { shop, bayId, appliedAt }: Place,
  airTemperatureC: number,
  at: Date,
  now: Date,
): Promise<readonly ReadingFinding[]> {
  const air = await airAround(tx, bayId, shop.timeZone, at, now, appliedAt)
  const claim = { atMs: at.getTime(), temperatureC: airTemperatureC, accuracyC: HAND_AIR_ACCURACY_C }
  return judgeRoomAir(claim, air.filter(({ atMs }) => claim.atMs - atMs <= TOGETHER_MS).slice(-1))
}

/** What the person is asked: what time and calibration say needs no answer, it is so. */
function askedAbout(finding: ReadingFinding): boolean {
  return isOfValue(finding) || finding.kind === 'sentTwice'
}

/** Each finding that nobody has confirmed, as a question. */
export function questionsAbout(
  findings: readonly ReadingFinding[],
  temperatureC: number,
  confirmed: readonly ReadingFindingKind[],
  field: string,
  unit: 'C' | 'F',
): ProblemReason[] {
  return findings
    .filter((finding) => askedAbout(finding) && !confirmed.includes(finding.kind))
    .map((finding) => ({
      code: finding.kind,
      field,
      message: findingSentence(finding, temperatureC, unit),
      fix: message('gate.mendOrConfirmFix'),
    }))
}

/** @throws {ProblemError} `reading-questioned`, with each question. */
export function requireConfirmed(questions: readonly ProblemReason[]): void {
  if (questions.length === 0) return
  throw new ProblemError('reading-questioned', sentences(questions.map(({ message }) => message)), questions)
}

export interface JudgedApplication {
  /** Of the panel's reading, to be stored with it. */
  readonly findings: readonly ReadingFinding[]
  readonly questions: readonly ProblemReason[]
}

/** What is doubtful of the temperatures that somebody gives when the adhesive goes on. */
export async function judgeApplication(
  tx: Tx,
  place: Place,
  { panel, airTemperatureC, confirmed }: Application,
  instrument: InstrumentRow | null,
  accuracyC: number,
  at: Date,
  now: Date,
): Promise<JudgedApplication> {
  const unit = place.shop.temperatureUnit as 'C' | 'F'
  const taken = { ...panel, at, accuracyC, instrument }
  const findings = await judgePanel(tx, place, taken, { metal: [], byTheSame: [] }, now)
  const air = await judgeAirAtJoint(tx, place, airTemperatureC, at, now)
  return {
    findings,
    questions: [
      ...questionsAbout(findings, panel.temperatureC, confirmed, 'body.panel.temperatureC', unit),
      ...questionsAbout(air, airTemperatureC, confirmed, 'body.airTemperatureC', unit),
    ],
  }
}
