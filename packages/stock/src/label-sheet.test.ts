import { describe, expect, it } from 'vitest'
import { LABEL_SHEETS, labelPlace } from './label-sheet.ts'

describe.each(LABEL_SHEETS.map((sheet) => [sheet.id, sheet] as const))('%s', (_id, sheet) => {
  const perSheet = sheet.columns * sheet.rows
  const places = Array.from({ length: perSheet }, (_, i) => labelPlace(sheet, i, 1))

  it('keeps every label on the paper, and none over another', () => {
    for (const [i, a] of places.entries()) {
      expect(a.xMm).toBeGreaterThanOrEqual(-1e-9)
      expect(a.yMm).toBeGreaterThanOrEqual(-1e-9)
      expect(a.xMm + sheet.labelWidthMm).toBeLessThanOrEqual(sheet.widthMm + 1e-9)
      expect(a.yMm + sheet.labelHeightMm).toBeLessThanOrEqual(sheet.heightMm + 1e-9)
      for (const b of places.slice(i + 1)) {
        const apartX = Math.abs(a.xMm - b.xMm) >= sheet.labelWidthMm - 1e-9
        const apartY = Math.abs(a.yMm - b.yMm) >= sheet.labelHeightMm - 1e-9
        expect(apartX || apartY).toBe(true)
      }
    }
  })

  it('goes on with the next sheet when one is full', () => {
    expect(labelPlace(sheet, perSheet - 1, 1).page).toBe(0)
    expect(labelPlace(sheet, perSheet, 1)).toEqual({ ...places[0], page: 1 })
  })

  it('begins where the used-up part of a sheet ends', () => {
    expect(labelPlace(sheet, 0, perSheet)).toEqual(places.at(-1))
    expect(labelPlace(sheet, 1, perSheet)).toEqual({ ...places[0], page: 1 })
    expect(() => labelPlace(sheet, 0, perSheet + 1)).toThrow(RangeError)
  })
})
