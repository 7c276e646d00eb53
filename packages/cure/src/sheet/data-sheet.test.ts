import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dataSheetFaults, type DataSheet, type SheetPoint } from './data-sheet.ts'
import { anySheet, SHEET } from '../testing.ts'

const [cold, room, hot] = SHEET.points as readonly [SheetPoint, SheetPoint, SheetPoint]
const withPoints = (...points: readonly SheetPoint[]): DataSheet => ({ ...SHEET, points })

describe('dataSheetFaults', () => {
  it('finds none in a good sheet', () => {
    expect(dataSheetFaults(SHEET)).toEqual([])
    fc.assert(
      fc.property(anySheet, (sheet) => {
        expect(dataSheetFaults(sheet)).toEqual([])
      }),
    )
  })

  it.each<[string, DataSheet, string, RegExp]>([
    ['no point at all', withPoints(), 'points', /empty/],
    [
      'times that rise',
      withPoints(cold, { ...room, handlingTimeMinutes: 700 }),
      'points.handlingTimeMinutes',
      /700 min at 23/,
    ],
    [
      'times that stay',
      withPoints(cold, { ...room, workTimeMinutes: 95 }),
      'points.workTimeMinutes',
      /does not fall/,
    ],
    ['a time of zero', withPoints({ ...room, fullCureMinutes: 0 }), 'points[0].fullCureMinutes', /is 0/],
    [
      'a time that is no number',
      withPoints({ ...room, workTimeMinutes: NaN }),
      'points[0].workTimeMinutes',
      /is NaN/,
    ],
    ['a temperature twice', withPoints(room, room), 'points', /23 degC twice/],
    ['a broken temperature', withPoints({ ...room, temperatureC: 900 }), 'points[0].temperatureC', /900/],
    [
      'work after handling',
      withPoints({ ...room, workTimeMinutes: 250 }),
      'points[0].workTimeMinutes',
      /longer than handling/,
    ],
    [
      'handling after full cure',
      withPoints({ ...room, handlingTimeMinutes: 2000 }),
      'points[0].handlingTimeMinutes',
      /full cure/,
    ],
    [
      'a point where nothing cures',
      { ...SHEET, lowestCureC: 12 },
      'points[0].temperatureC',
      /below lowestCureC/,
    ],
    [
      'a point beyond the limit',
      { ...SHEET, highestCureC: 50 },
      'points[2].temperatureC',
      /above highestCureC/,
    ],
    [
      'limits that cross',
      { ...withPoints(hot), lowestCureC: 70, highestCureC: 60 },
      'lowestCureC',
      /must be below/,
    ],
    [
      'a range upside down',
      { ...SHEET, applicationRangeC: { min: 35, max: 10 } },
      'applicationRangeC',
      /swap/,
    ],
    [
      'a range that is no number',
      { ...SHEET, serviceRangeC: { min: NaN, max: 10 } },
      'serviceRangeC.min',
      /NaN/,
    ],
  ])('names %s', (_, sheet, field, message) => {
    const fault = dataSheetFaults(sheet).find((candidate) => candidate.field === field)
    expect(fault?.message).toMatch(message)
  })

  it('lists every fault, not the first', () => {
    const bad = { ...withPoints({ ...room, workTimeMinutes: -1, fullCureMinutes: -1 }), highestCureC: 400 }
    expect(dataSheetFaults(bad).map((fault) => fault.field)).toEqual(
      expect.arrayContaining(['highestCureC', 'points[0].workTimeMinutes', 'points[0].fullCureMinutes']),
    )
  })
})
