import { describe, expect, it } from 'vitest'
import type { DataSheet } from './data-sheet.ts'
import { SHEET_QUESTION_KINDS, sheetQuestions } from './sheet-questions.ts'

const SHEET: DataSheet = {
  points: [
    { temperatureC: 10, workTimeMinutes: 120, handlingTimeMinutes: 360, fullCureMinutes: 2880 },
    { temperatureC: 23, workTimeMinutes: 60, handlingTimeMinutes: 180, fullCureMinutes: 1440 },
    { temperatureC: 40, workTimeMinutes: 20, handlingTimeMinutes: 60, fullCureMinutes: 480 },
  ],
  applicationRangeC: { min: 10, max: 35 },
  lowestCureC: 5,
  highestCureC: 80,
  serviceRangeC: { min: -40, max: 120 },
}
const one = (temperatureC: number, handlingTimeMinutes = 180) => [
  {
    temperatureC,
    workTimeMinutes: Math.min(60, handlingTimeMinutes),
    handlingTimeMinutes,
    fullCureMinutes: 1440,
  },
]
const asked = (changes: Partial<DataSheet>, previous?: DataSheet) =>
  sheetQuestions({ ...SHEET, ...changes }, previous).map(({ kind, field }) => [kind, field])

describe('questions about a data sheet', () => {
  it('are none for an ordinary one, alone or after a revision that was as fast', () => {
    expect(asked({})).toEqual([])
    expect(asked({}, SHEET)).toEqual([])
    expect(asked({ points: one(23) })).toEqual([])
  })

  it('ask about the unit: 73 typed as degC, and 23 typed as degF', () => {
    expect(sheetQuestions({ ...SHEET, points: one(73) })).toEqual([
      { kind: 'fahrenheit', field: 'points[0].temperatureC', valueC: 73, meantC: 22.8 },
    ])
    expect(sheetQuestions({ ...SHEET, points: one(-5), lowestCureC: -10 })).toEqual([
      { kind: 'celsius', field: 'points[0].temperatureC', valueC: -5, meantC: 23 },
    ])
    const mixed = [...one(23), ...one(104, 60)]
    expect(
      asked({
        points: mixed.map((p, i) => ({ ...p, workTimeMinutes: 30 - i, fullCureMinutes: 900 - i })),
        highestCureC: 110,
      }),
    ).toEqual([['fahrenheit', 'points[1].temperatureC']])
    // A point under a heat lamp beside one in a room is what sheets publish.
    const lamp = { temperatureC: 73, workTimeMinutes: 5, handlingTimeMinutes: 15, fullCureMinutes: 60 }
    expect(asked({ points: [SHEET.points[1]!, lamp] })).toEqual([])
  })

  it('ask about a time more than twice as fast as the last revision at the same temperature', () => {
    const handling = (minutes: number) =>
      SHEET.points.map((point) =>
        point.temperatureC === 23 ? { ...point, workTimeMinutes: 55, handlingTimeMinutes: minutes } : point,
      )
    expect(asked({ points: handling(90) }, SHEET)).toEqual([])
    expect(sheetQuestions({ ...SHEET, points: handling(89) }, SHEET)).toEqual([
      {
        kind: 'muchFaster',
        field: 'points[1].handlingTimeMinutes',
        milestone: 'handlingStrength',
        temperatureC: 23,
        minutes: 89,
        previousMinutes: expect.closeTo(180, 6),
      },
    ])
    expect(asked({ points: handling(89) })).toEqual([])
    // Slower needs no question: it can only delay.
    expect(asked({}, { ...SHEET, points: handling(89) })).toEqual([])
  })

  it('compare at a temperature that the last revision does not publish, by its curve', () => {
    const at30 = [{ temperatureC: 30, workTimeMinutes: 15, handlingTimeMinutes: 45, fullCureMinutes: 380 }]
    expect(asked({ points: at30 }, SHEET)).toEqual([
      ['muchFaster', 'points[0].workTimeMinutes'],
      ['muchFaster', 'points[0].handlingTimeMinutes'],
      ['muchFaster', 'points[0].fullCureMinutes'],
    ])
    const cold = [
      ...SHEET.points,
      { temperatureC: 3, workTimeMinutes: 200, handlingTimeMinutes: 600, fullCureMinutes: 4000 },
    ]
    // Below 5 degC the last revision lets nothing cure.
    expect(asked({ points: cold, lowestCureC: 2 }, SHEET)).toHaveLength(3)
  })

  it('ask about hours that were written as minutes', () => {
    expect(asked({ points: one(23, 3) })).toEqual([['handlingInMinutes', 'points[0].handlingTimeMinutes']])
    expect(asked({ points: one(23, 10) })).toEqual([])
    expect(asked({ points: one(30, 9) })).toEqual([['handlingInMinutes', 'points[0].handlingTimeMinutes']])
  })

  it('ask about limits that no shop meets', () => {
    expect(asked({ applicationRangeC: { min: 50, max: 95 } })).toEqual([
      ['applicationOutsideShop', 'applicationRangeC'],
      ['fahrenheit', 'applicationRangeC.max'],
    ])
    expect(asked({ applicationRangeC: { min: -12, max: 2 } })).toEqual([
      ['applicationOutsideShop', 'applicationRangeC'],
      ['celsius', 'applicationRangeC.max'],
    ])
    expect(asked({ applicationRangeC: { min: 40, max: 50 } })).toEqual([])
    expect(asked({ applicationRangeC: { min: 0, max: 5 } })).toEqual([])
    expect(asked({ applicationRangeC: { min: 10, max: 95 } })).toEqual([
      ['fahrenheit', 'applicationRangeC.max'],
    ])
    expect(asked({ points: one(26), lowestCureC: 24 })).toContainEqual(['noCureInRoom', 'lowestCureC'])
    expect(asked({ points: one(26), lowestCureC: 23 })).toEqual([])
    expect(asked({ highestCureC: 248 })).toEqual([
      ['cureEndsHot', 'highestCureC'],
      ['fahrenheit', 'highestCureC'],
    ])
    expect(asked({ points: one(23), highestCureC: 29 })[0]).toEqual(['cureEndsHot', 'highestCureC'])
    expect(asked({ highestCureC: 190 })).toEqual([])
    expect(asked({ serviceRangeC: { min: -40, max: 49 } })).toEqual([
      ['serviceBelowSun', 'serviceRangeC.max'],
    ])
    expect(asked({ serviceRangeC: { min: -40, max: 50 } })).toEqual([])
  })

  it('are not asked of a sheet with faults', () => {
    expect(() => sheetQuestions({ ...SHEET, points: [] })).toThrow(/points is empty/)
  })

  it('have each a kind of the list', () => {
    expect(new Set(SHEET_QUESTION_KINDS).size).toBe(SHEET_QUESTION_KINDS.length)
  })
})
