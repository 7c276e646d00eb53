import { expect, it } from 'vitest'
import { BUILT_IN_TEMPLATES } from './built-in-templates.ts'
import { inOrder, precedences, stepsToAdd, type Placed } from './expand.ts'

const door = BUILT_IN_TEMPLATES.find(({ key }) => key === 'doorSkin')!.steps

const operation = (id: string, kind: Placed['kind'], jointId: string | null = null): Placed => ({
  id,
  kind,
  jointId,
})
const twoJoints = [
  operation('bond-a', 'bondAndClamp', 'a'),
  operation('cure-a', 'cure', 'a'),
  operation('paint', 'paint'),
  operation('bond-b', 'bondAndClamp', 'b'),
  operation('cure-b', 'cure', 'b'),
  operation('seal', 'sealAndPrime'),
]

it('adds the steps of a joint each time, and those of the vehicle once', () => {
  expect(stepsToAdd(door, [], true).map(({ kind }) => kind)).toEqual(door.map(({ kind }) => kind))
  expect(stepsToAdd(door, door, true).map(({ kind }) => kind)).toEqual([
    'prepare',
    'dryFit',
    'bondAndClamp',
    'cure',
    'unclampAndDress',
  ])
})

it('leaves out what only a joint can have where there is none', () => {
  expect(stepsToAdd(door, [], false).map(({ kind }) => kind)).toEqual([
    'sealAndPrime',
    'paint',
    'bake',
    'cool',
    'refit',
  ])
})

it('puts the joints first and then the vehicle, whatever was added when', () => {
  expect(inOrder(twoJoints).map(({ id }) => id)).toEqual([
    'bond-a',
    'cure-a',
    'bond-b',
    'cure-b',
    'seal',
    'paint',
  ])
})

it('lets joints go side by side, starts a cure with its clamps, and makes the vehicle wait for all of them', () => {
  expect(precedences(twoJoints)).toEqual([
    { before: 'bond-a', after: 'cure-a', noWait: true },
    { before: 'bond-b', after: 'cure-b', noWait: true },
    { before: 'cure-a', after: 'seal', noWait: false },
    { before: 'cure-b', after: 'seal', noWait: false },
    { before: 'seal', after: 'paint', noWait: false },
  ])
})

it('comes with templates whose cures follow their bonds, and whose bakes are in the oven', () => {
  for (const { key, steps } of BUILT_IN_TEMPLATES) {
    const bond = steps.findIndex(({ kind }) => kind === 'bondAndClamp')
    expect(steps[bond + 1]?.kind, key).toBe('cure')
    expect(steps.find(({ kind }) => kind === 'bake')?.place, key).toBe('oven')
  }
})
