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
    for (const start of [0, perSheet + 1, Number.NaN])
      expect(() => labelPlace(sheet, 0, start)).toThrow(
        `start is ${start}: the sheet has places 1 to ${perSheet}`,
      )
  })

  it('leaves the same margin left and right, and above and below', () => {
    const [first, last] = [places[0]!, places.at(-1)!]
    expect(first.xMm).toBeCloseTo(sheet.widthMm - last.xMm - sheet.labelWidthMm, 9)
    expect(first.yMm).toBeCloseTo(sheet.heightMm - last.yMm - sheet.labelHeightMm, 9)
  })

  it('goes along a row before it begins the next, each label a gap from the one before', () => {
    for (const [i, { xMm, yMm }] of places.entries()) {
      const [column, row] = [i % sheet.columns, Math.floor(i / sheet.columns)]
      expect(xMm).toBeCloseTo(places[0]!.xMm + column * (sheet.labelWidthMm + sheet.gapXMm), 9)
      expect(yMm).toBeCloseTo(places[0]!.yMm + row * (sheet.labelHeightMm + sheet.gapYMm), 9)
    }
  })
})

describe('the sheets that are offered', () => {
  it('are named by paper, columns and rows, a single label by its size', () => {
    for (const { id, widthMm, heightMm, columns, rows } of LABEL_SHEETS) {
      const [, paper, across, down] = /^(a4|letter|single)-(\d+)x(\d+)$/.exec(id)!
      // A4 by ISO 216; US letter, 8.5 by 11 inches, by ANSI/ASME Y14.1.
      const size = { a4: [210, 297], letter: [215.9, 279.4], single: [Number(across), Number(down)] }[paper!]
      expect([widthMm, heightMm]).toEqual(size)
      expect([columns, rows]).toEqual(paper === 'single' ? [1, 1] : [Number(across), Number(down)])
    }
    expect(new Set(LABEL_SHEETS.map(({ id }) => id)).size).toBe(7)
  })
})
