import { expect, it } from 'vitest'
import { LABEL_SHEETS } from '../../../../../packages/stock/src/index.ts'
import { usualSheet } from './sheet-name.ts'

it.each([
  ['F', 'Pacific/Honolulu', 215.9],
  ['C', 'America/Toronto', 215.9],
  ['C', 'Europe/Berlin', 210],
])('a shop in °%s at %s is proposed paper of %d mm', (temperatureUnit, timeZone, widthMm) => {
  const id = usualSheet({ temperatureUnit, timeZone })
  expect(LABEL_SHEETS.find((sheet) => sheet.id === id)?.widthMm).toBe(widthMm)
})
