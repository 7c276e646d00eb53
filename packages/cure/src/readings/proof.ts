import { MS_PER_MINUTE } from '@clampclock/quantities'
import type { AirAtJoint, Compared, MetalReading } from './at-joint.ts'
import type { Reading } from './reading.ts'
import { readingBand } from './temperature-line.ts'
import { widened, widenedForecast } from './widened.ts'

/*
 * Nothing that one instrument says of one thing contradicts it. A thermometer that was held against nothing is a claim, and
 * a claim may delay, never hasten: the careful line then goes by what is left.
 */

/**
 * A hand reading this near to what the bay's thermometer shows may have been copied off it, and proves nothing, degC. Two
 * honest instruments, each good for 1 degC, come as near in about a quarter of all cases: so one comparison of late that is
 * near, and not as near as that, is asked for, and no more.
 */
export const COPIED_C = 0.2
/** Two of the metal within this were of the same metal, minutes: it changes little in so long. Common practice, no source. */
const TOGETHER_MINUTES = 15
/** Metal that is warmer than before by more than a thermometer repeats itself has warmed, degC. Common practice, no source. */
const REPEATS_C = 0.4
/** A vehicle that stood in the yard comes in this much colder than the bay, degC. Common practice, no source. */
const COLDER_THAN_THE_BAY_C = 10

/**
 * What is left once every claim that nothing bears out counts against us alone.
 *
 * @param apartC the bay's thermometer above the air at the joint, degC; null where several hang there, which bear one another out.
 */
export function provenOnly(compared: Compared, joint: AirAtJoint, apartC: number | null): Compared {
  const { metal, forecast, notes } = compared
  const isUnproven = metal.map((reading) => !isBorneOut(reading, metal, joint))
  const isMetalUnproven = isUnproven.some((is) => is)
  const isCopied = apartC !== null && joint.isBayBorneOut !== true && Math.abs(apartC) <= COPIED_C
  const byC = isCopied ? shortfallC(compared.air, metal) : 0
  return {
    air: compared.air.map((reading) => widened(reading, 'low', byC)),
    metal: isMetalUnproven
      ? metal.map((reading, i) => (isUnproven[i] ? unproven(reading, joint) : reading))
      : metal,
    forecast: widenedForecast(forecast, 'low', byC),
    notes: [
      ...notes,
      ...(isMetalUnproven ? [{ kind: 'metalUnproven' } as const] : []),
      ...(byC > 0 ? [{ kind: 'airUnproven', byC } as const] : []),
    ],
  }
}

/**
 * The metal as it may have come in: as cold as the adhesive may be put on, and the air of the yard; as warm as the bay. Later
 * readings say nothing of how far it has warmed since.
 */
function unproven(
  reading: MetalReading,
  { atMs, temperatureC, accuracyC, coldestMetalC }: AirAtJoint,
): MetalReading {
  if (reading.atMs !== atMs) return { ...reading, suspect: true }
  const [low, , high] = readingBand(reading)
  const coldestC = Math.min(coldestMetalC, temperatureC - accuracyC - COLDER_THAN_THE_BAY_C)
  return widened(
    widened(reading, 'low', Math.max(0, low - coldestC)),
    'high',
    Math.max(0, temperatureC + accuracyC - high),
  )
}

/** It read the air at this joint, or agreed with the bay's of late, or with another thermometer on this metal. */
function isBorneOut(reading: MetalReading, metal: readonly MetalReading[], joint: AirAtJoint): boolean {
  const { isByPanelThermometer, suspect } = reading
  if (suspect || reading.isBorneOut || (isByPanelThermometer && joint.isByPanelThermometer)) return true
  const byTheSame = metal.filter((one) => one.isByPanelThermometer === isByPanelThermometer)
  const byAnother = metal.filter((one) => one.isByPanelThermometer !== isByPanelThermometer)
  return byTheSame.some((one) => byAnother.some((other) => agree(one, other)))
}

/** Two instruments on one metal at one time: they bear one another out where their accuracies explain the difference. */
function agree(a: MetalReading, b: MetalReading): boolean {
  if (a.suspect || b.suspect) return false
  const minutes = Math.abs(a.atMs - b.atMs) / MS_PER_MINUTE
  return minutes <= TOGETHER_MINUTES && Math.abs(a.temperatureC - b.temperatureC) <= a.accuracyC + b.accuracyC
}

/**
 * How far the metal has been found to stay below the air, degC: air that nothing bears out may be as much colder than it
 * reads. The metal is taken to have come in no warmer than the air; from then on each reading of it that shows it to have
 * warmed shows air above it.
 */
function shortfallC(air: readonly Reading[], metal: readonly MetalReading[]): number {
  let least: number | null = null
  let before: MetalReading | undefined
  for (const reading of metal) {
    const shown = air.findLast(({ atMs, suspect }) => !suspect && atMs <= reading.atMs)
    const hasWarmed = before === undefined || reading.temperatureC > before.temperatureC + REPEATS_C
    if (shown && hasWarmed) {
      const belowC = Math.max(0, shown.temperatureC - reading.temperatureC)
      least = Math.min(least ?? belowC, belowC)
    }
    before = reading
  }
  return least ?? 0
}
