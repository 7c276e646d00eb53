import { dataSheetFaults, type DataSheet } from '@clampclock/cure'
import { expect, it } from 'vitest'
import { inEnglish } from '../../foundation/words/words.ts'
import { sheetFault } from './sheet-sentences.ts'

const SHEET: DataSheet = {
  points: [
    { temperatureC: -11.11, workTimeMinutes: 120, handlingTimeMinutes: 360, fullCureMinutes: 2880 },
    { temperatureC: 23, workTimeMinutes: 400, handlingTimeMinutes: 180, fullCureMinutes: 100 },
    { temperatureC: 200, workTimeMinutes: 400, handlingTimeMinutes: -1, fullCureMinutes: 100 },
  ],
  applicationRangeC: { min: 35, max: 10 },
  lowestCureC: 7.78,
  highestCureC: 80,
  serviceRangeC: { min: -400, max: 120 },
}

it('says what is wrong with a sheet as people do, each temperature in both units', () => {
  const told = dataSheetFaults(SHEET).map(({ message }) => inEnglish(sheetFault(message)))
  expect(told).toContain(
    'The temperature in line 1 is -11.1 °C (12.0 °F), below the lowest temperature for cure (7.8 °C (46.0 °F)), where nothing cures',
  )
  expect(told).toContain('Line 2: work time (400 min) cannot be longer than handling time (180 min)')
  for (const message of told) expect(message).not.toMatch(/degC|[a-z]C\b|Minutes|points|\[/)
})
