import { expect, it } from 'vitest'
import { asKind, newStep, stepOf, valuesOf } from './step-values.ts'

it('turns a step into another kind, with what that kind has', () => {
  const paint = { ...newStep('paint'), skill: 'paint' as const, technicians: 2 }
  expect(stepOf(asKind(paint, 'bake'))).toMatchObject({
    kind: 'bake',
    name: 'Bake',
    place: 'oven',
    technicians: 0,
    skill: null,
    highestMetalC: 60,
  })
  const back = asKind(asKind({ ...paint, name: 'Second coat' }, 'bake'), 'paint')
  expect(stepOf(back)).toMatchObject({ name: 'Second coat', technicians: 1, highestMetalC: null })
})

it('sends a bake by the program of the oven, or by minutes, and never both', () => {
  const bake = { ...newStep('bake'), bakeBy: 'program' as const }
  const byProgram = stepOf(bake)
  expect(byProgram).toMatchObject({
    kind: 'bake',
    workMinutes: null,
    highestMetalC: null,
    bakeProgram: { metalTargetC: 60, dwellMinutes: 30 },
  })
  expect(stepOf(valuesOf(byProgram))).toEqual(byProgram)
  const byMinutes = { ...valuesOf(byProgram), bakeBy: 'minutes' as const, workMinutes: 80, highestMetalC: 65 }
  expect(stepOf(byMinutes)).toMatchObject({ workMinutes: 80, highestMetalC: 65, bakeProgram: null })
  expect(stepOf(asKind(bake, 'paint'))).toMatchObject({ bakeProgram: null, highestMetalC: null })
})
