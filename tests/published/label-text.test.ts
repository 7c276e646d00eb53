import { expect, it } from 'vitest'
import { dayText } from '../../packages/messages/src/index.ts'
import { LABEL_SHEETS, labelPlace } from '../../packages/stock/src/index.ts'
import type { CartridgeLabel } from '../../apps/api/src/supply/labels/cartridge-label.ts'
import { drawLabels } from '../../apps/api/src/supply/labels/draw.ts'
import { NOBODY } from '../../apps/api/src/foundation/words/reader.ts'
import { textBoxes, type TextBox } from '../support/pdf-boxes.ts'

const POINTS_PER_MM = 72 / 25.4
/** A viewer without Helvetica takes DejaVu Sans here, whose bold digits are that much wider (0.696 em against 0.556). */
const WIDER = 1.25
/** Widest letters of Helvetica, and every length at its bound (a code, a lot number, a name). */
const LONGEST = {
  code: 'WWWW-WWWW',
  productName:
    'Jubjub Structural Panel Adhesive for Aluminium and Galvanised Steel, Extra Slow, Édition Ñandú 90'.padEnd(
      120,
      ' W',
    ),
  lotNumber: 'W'.repeat(20),
}
const USUAL = { code: '4F7K-92QX', productName: 'Snark Panel 90', lotNumber: 'Q12345' }

const overlap = (one: TextBox, other: TextBox) =>
  one.page === other.page &&
  one.left < other.right &&
  other.left < one.right &&
  one.top < other.bottom &&
  other.top < one.bottom

const CASES = LABEL_SHEETS.flatMap((sheet) =>
  (['en', 'es'] as const).flatMap((language) =>
    [USUAL, LONGEST].map((words) => ({ id: sheet.id, language, lot: words.lotNumber, sheet, words })),
  ),
)

it.each(CASES)('each line of a label has its own place on $id ($language, lot $lot)', async (each) => {
  const { sheet, words, language } = each
  const label: CartridgeLabel = { ...words, text: words.code, expiry: dayText(language, '2031-09-30') }
  // The last row of one sheet and the first label of the next: every column, and both ends of the paper.
  const start = sheet.columns * (sheet.rows - 1) + 1
  const labels = Array.from({ length: sheet.columns + 1 }, () => label)
  const reader = { ...NOBODY, language }
  const boxes = textBoxes(await drawLabels(labels, sheet, start, { compress: false, reader }))

  let seen = 0
  for (const index of labels.keys()) {
    const at = labelPlace(sheet, index, start)
    const [left, top] = [at.xMm * POINTS_PER_MM, at.yMm * POINTS_PER_MM]
    const [right, bottom] = [
      left + sheet.labelWidthMm * POINTS_PER_MM,
      top + sheet.labelHeightMm * POINTS_PER_MM,
    ]
    const own = boxes.filter(
      (box) =>
        box.page === at.page && box.left >= left && box.left < right && box.top >= top && box.top < bottom,
    )
    seen += own.length
    // Whole: who types it needs every letter.
    expect(own.map(({ text }) => text)).toContain(words.code)
    expect(own.some(({ text }) => text.endsWith(words.lotNumber))).toBe(true)
    expect(own.some(({ text }) => text.endsWith(label.expiry))).toBe(true)
    expect(own.length).toBeGreaterThanOrEqual(4)
    for (const [i, box] of own.entries()) {
      expect(box.left + WIDER * (box.right - box.left)).toBeLessThanOrEqual(right)
      expect(box.bottom).toBeLessThanOrEqual(bottom)
      for (const other of own.slice(i + 1))
        expect(overlap(box, other), `${box.text} on ${other.text}`).toBe(false)
    }
  }
  expect(seen, 'a line lies on no label').toBe(boxes.length)
})
