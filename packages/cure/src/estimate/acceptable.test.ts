import { describe, expect, it } from 'vitest'
import { acceptableFromMs } from './acceptable.ts'
import { estimateBond } from './estimate.ts'
import type { Reading } from '../readings/reading.ts'
import { MINUTE_MS, SHEET, START_MS } from '../testing.ts'

const after = (minutes: number): number => START_MS + minutes * MINUTE_MS
/** Metal and air read each quarter of an hour at one temperature. */
const steady = (temperatureC: number, minutes: number): Reading[] =>
  Array.from({ length: Math.floor(minutes / 15) + 1 }, (_, i) => ({
    atMs: after(15 * i),
    temperatureC,
    accuracyC: 0.5,
    source: i === 0 ? 'metalProbe' : 'bayAir',
  }))
const at = (readings: readonly Reading[], minutes: number, sheets = [SHEET]) => {
  const estimate = estimateBond({
    sheet: SHEET,
    appliedAtMs: START_MS,
    readings,
    forecast: [],
    nowMs: after(minutes),
    panelTauMinutes: 4,
  })
  return { from: acceptableFromMs(estimate, START_MS, sheets), estimate }
}
const longest = Math.max(...SHEET.points.map(({ fullCureMinutes }) => fullCureMinutes))

describe('a joint without its clamps', () => {
  it('is accepted from the careful instant on, where it is measured', () => {
    const { from, estimate } = at(steady(23, 1200), 1200)
    expect(estimate.handlingStrength.readyAt.conservative).toEqual({ kind: 'at', atMs: from })
  })

  it('is not accepted however long it lies in measured cold', () => {
    const minutes = longest + 1500
    expect(at(steady(SHEET.lowestCureC - 3, minutes), minutes).from).toBeNull()
  })

  it('is accepted after the longest full cure of any of its sheets where nobody measures', () => {
    const slower = {
      ...SHEET,
      points: SHEET.points.map((point) => ({ ...point, fullCureMinutes: 3 * point.fullCureMinutes })),
    }
    const cold = steady(SHEET.lowestCureC - 3, 30)
    expect(at(cold, 600).from).toBe(after(longest))
    expect(at(cold, 600, [SHEET, slower]).from).toBe(after(3 * longest))
  })

  it('is not accepted where nothing can be computed', () => {
    expect(at(steady(23, 1200), 1200, []).from).toBeNull()
  })
})
