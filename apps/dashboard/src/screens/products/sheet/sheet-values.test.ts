import { expect, it } from 'vitest'
import { emptySheet, sheetBody } from './sheet-values.ts'

it('sends what is missing as null, for the service to name the field', () => {
  const wire = JSON.parse(JSON.stringify(sheetBody({ ...emptySheet, lowestCureC: 0 }))) as Record<
    string,
    unknown
  >
  expect(wire['lowestCureC']).toBe(0)
  expect(wire['highestCureC']).toBeNull()
  expect(wire['points']).toEqual([
    { temperatureC: null, workTimeMinutes: null, handlingTimeMinutes: null, fullCureMinutes: null },
  ])
})
