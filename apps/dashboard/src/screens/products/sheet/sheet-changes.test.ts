import { expect, it } from 'vitest'
import type { ProductSheet } from '../../../api/types.ts'
import { sheetChanges } from './sheet-changes.ts'

const SHEET: ProductSheet = {
  id: 'a',
  revision: 'A',
  issuedOn: '2030-01-01',
  validFrom: null,
  recordedAt: '2030-01-01T00:00:00Z',
  recordedBy: null,
  recordedById: null,
  answered: [],
  approval: null,
  documents: [],
  rejection: null,
  points: [
    { temperatureC: 10, workTimeMinutes: 120, handlingTimeMinutes: 360, fullCureMinutes: 2880 },
    { temperatureC: 23, workTimeMinutes: 60, handlingTimeMinutes: 180, fullCureMinutes: 1440 },
  ],
  applicationRangeC: { min: 10, max: 35 },
  lowestCureC: 5,
  highestCureC: 80,
  serviceRangeC: { min: -40, max: 120 },
}
const at23 = (handlingTimeMinutes: number): ProductSheet => ({
  ...SHEET,
  points: [{ temperatureC: 23, workTimeMinutes: 60, handlingTimeMinutes, fullCureMinutes: 1440 }],
})

it('tells what is the same, what is slower and what is faster', () => {
  const handling = (minutes: number) => sheetChanges(at23(minutes), SHEET, 'C')[1]
  expect(handling(180)).toMatchObject({ what: 'Handling strength at 23.0 °C', tone: 'same' })
  expect(handling(240)).toMatchObject({ before: '3 h 00 min', after: '4 h 00 min', tone: 'slower' })
  expect(handling(90)).toMatchObject({ after: '1 h 30 min', tone: 'faster' })
})

it('compares a temperature that was not published with the curve, and one that did not cure with never', () => {
  const [work] = sheetChanges({ ...SHEET, points: [{ ...SHEET.points[1]!, temperatureC: 15 }] }, SHEET, 'C')
  expect(work?.before).toMatch(/^1 h \d\d min$/)
  const colder = { ...SHEET, lowestCureC: 0, points: [{ ...SHEET.points[1]!, temperatureC: 2 }] }
  const [cold] = sheetChanges(colder, SHEET, 'C')
  expect(cold).toMatchObject({ before: 'no cure there', tone: 'faster' })
})

it('tells of a point that the new revision leaves out, with what its curve says there', () => {
  const changes = sheetChanges(at23(180), SHEET, 'C')
  const cold = changes.filter(({ what }) => what.endsWith('at 10.0 °C'))
  expect(cold).toHaveLength(3)
  expect(cold[1]).toMatchObject({
    before: '6 h 00 min',
    after: expect.stringMatching(/^left out: .* by its curve$/),
  })
  const none = sheetChanges({ ...at23(180), lowestCureC: 15 }, SHEET, 'C')
  expect(none.find(({ what }) => what === 'Work time at 10.0 °C')).toMatchObject({
    after: 'left out: no cure there',
    tone: 'slower',
  })
})

it('shows limits that changed, in the unit of the reader, and everything where nothing counts yet', () => {
  const changes = sheetChanges({ ...SHEET, lowestCureC: 10 }, SHEET, 'F')
  expect(changes.filter(({ tone }) => tone === 'other')).toEqual([
    { what: 'Cures at all from', before: '41.0 °F', after: '50.0 °F', tone: 'other' },
  ])
  const first = sheetChanges(SHEET, null, 'C')
  expect(first).toHaveLength(10)
  expect(first.every(({ before }) => before === null)).toBe(true)
})
