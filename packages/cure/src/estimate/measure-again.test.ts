import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { conservativelyAt, estimateFrom } from './estimate.ts'
import { measuredAgain } from './measure-again.ts'
import { addReading, addReadings, startProgress } from './progress.ts'
import type { Reading } from '../readings/reading.ts'
import { anyHistory, MINUTE_MS, SHEET, START_MS } from '../testing.ts'

const after = (minutes: number): number => START_MS + minutes * MINUTE_MS
const read = (source: Reading['source'], minutes: number, temperatureC: number): Reading => ({
  atMs: after(minutes),
  temperatureC,
  accuracyC: 1,
  source,
})
const readings = [
  read('metalProbe', 0, 12),
  ...Array.from({ length: 5 }, (_, i) => read('bayAir', 15 * i + 1, 22)),
]
const state = addReadings(startProgress(SHEET, START_MS, 4), readings)
const forecast = [70, 3000].map((minutes) => ({ atMs: after(minutes), expectedC: 22, lowC: 21, highC: 23 }))
const outlook = { nowMs: after(70), forecast }

describe('measuredAgain', () => {
  it('is what the gate says once the metal was measured as warm as expected', () => {
    const worth = measuredAgain(state, outlook, 1)
    const waiting = estimateFrom(state, outlook).handlingStrength.readyAt.conservative
    if (worth?.kind !== 'at' || waiting.kind !== 'at') throw new Error('no instant')
    expect(waiting.atMs - worth.atMs).toBeGreaterThan(20 * MINUTE_MS)
    // A quick panel is at the air's 22 degC by then.
    const measured = addReading(state, read('metalProbe', 70, 22))
    const { conservative } = estimateFrom(measured, outlook).handlingStrength.readyAt
    expect(conservative).toEqual({ kind: 'at', atMs: expect.closeTo(worth.atMs, -4) })
  })

  it('is nothing where it brings nothing forward: just measured, or ready', () => {
    const measured = addReading(state, read('metalProbe', 70, 22))
    expect(measuredAgain(measured, { ...outlook, nowMs: after(71) }, 1)).toBeNull()
    expect(measuredAgain(state, { nowMs: after(61), forecast: [] }, 1)).toBeNull()
    expect(measuredAgain(startProgress(SHEET, START_MS), { nowMs: after(9), forecast: [] }, 1)).toBeNull()
  })
})

describe('conservativelyAt', () => {
  it('is the instant of the estimate, for any history', () => {
    fc.assert(
      fc.property(
        anyHistory,
        ({ sheet, appliedAtMs, panelTauMinutes, readings: all, nowMs, forecast: ahead }) => {
          const any = addReadings(startProgress(sheet, appliedAtMs, panelTauMinutes), all)
          for (const milestone of ['handlingStrength', 'fullCure'] as const) {
            const { conservative } = estimateFrom(any, { nowMs, forecast: ahead })[milestone].readyAt
            expect(conservativelyAt(any, { nowMs, forecast: ahead }, milestone)).toEqual(conservative)
          }
        },
      ),
    )
  })
})
