import { expect, it } from 'vitest'
import { figureRows } from './figures.ts'

const point = (atMinutes: number, airC: number) => ({ atMinutes, airC, metalC: [20] })

it('thins the points, and keeps both ends and both sides of the step where it is rolled out', () => {
  const hot = Array.from({ length: 61 }, (_, i) => point(i, 70))
  const cool = Array.from({ length: 61 }, (_, i) => point(60 + i, 20))
  const rows = figureRows([...hot, ...cool])
  expect(rows.length).toBeLessThanOrEqual(26)
  expect(rows[0]).toEqual(point(0, 70))
  expect(rows.at(-1)).toEqual(point(120, 20))
  expect(rows.filter(({ atMinutes }) => atMinutes === 60)).toEqual([point(60, 70), point(60, 20)])
})

it('keeps all of a few', () => {
  const few = [point(0, 70), point(5, 70), point(9, 70)]
  expect(figureRows(few)).toEqual(few)
})
