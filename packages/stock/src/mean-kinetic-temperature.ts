import type { StorageReading } from './storage-life.ts'

/** Activation energy over the gas constant, K: 83.144 kJ/mol by USP's convention, which makes it 10 000. */
const ACTIVATION_K = 10_000
const ZERO_C_IN_K = 273.15

/**
 * Mean kinetic temperature, degC: the constant temperature that would have done the same to the material (USP <1079.2>).
 * Each stretch between two readings counts with the mean of its ends, weighted by how long it lasted; a single reading
 * is its own mean. Warmth counts more than in a Q10 = 2 rule (about 3 for each 10 degC): for telling, never for expiry.
 *
 * @param readings Sorted by instant.
 * @throws {RangeError} When there is no reading, or they are out of order.
 */
export function meanKineticTemperatureC(readings: readonly StorageReading[]): number {
  const first = readings[0]
  if (!first) throw new RangeError('readings is empty: give at least one')
  if (readings.length === 1) return first.temperatureC
  let weight = 0
  let sum = 0
  for (let i = 1; i < readings.length; i += 1) {
    const before = readings[i - 1]!
    const after = readings[i]!
    const duration = after.atMs - before.atMs
    if (!(duration > 0))
      throw new RangeError(
        `readings[${i}].atMs is ${after.atMs}, not later than the one before: sort them, one for an instant`,
      )
    weight += duration
    sum += (duration * (factor(before.temperatureC) + factor(after.temperatureC))) / 2
  }
  return temperatureOf(sum / weight)
}

/** The same over values of equal weight, as USP's examples give them. @throws {RangeError} When there is none. */
export function meanKineticTemperatureOfC(temperaturesC: readonly number[]): number {
  if (temperaturesC.length === 0) throw new RangeError('temperaturesC is empty: give at least one')
  return temperatureOf(temperaturesC.reduce((sum, c) => sum + factor(c), 0) / temperaturesC.length)
}

/**
 * The mean kinetic temperature of several stretches together, degC, from that of each and its weight (such as its hours).
 *
 * @throws {RangeError} When there is none, or a weight is not above zero.
 */
export function combinedMeanKineticC(
  parts: readonly { readonly meanKineticC: number; readonly weight: number }[],
): number {
  if (parts.length === 0) throw new RangeError('parts is empty: give at least one')
  let weight = 0
  let sum = 0
  for (const part of parts) {
    if (!(part.weight > 0)) throw new RangeError(`weight is ${part.weight}: give one above 0`)
    weight += part.weight
    sum += part.weight * factor(part.meanKineticC)
  }
  return temperatureOf(sum / weight)
}

function factor(temperatureC: number): number {
  return Math.exp(-ACTIVATION_K / (temperatureC + ZERO_C_IN_K))
}

function temperatureOf(meanFactor: number): number {
  return ACTIVATION_K / -Math.log(meanFactor) - ZERO_C_IN_K
}
