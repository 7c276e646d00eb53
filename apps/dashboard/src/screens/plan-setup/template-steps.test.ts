import { expect, it } from 'vitest'
import { moved } from '../../features/operations/sequence.ts'
import type { StepValues } from '../../features/operations/step-values.ts'
import { keyFor, minutesOfPeople, withAnother, without } from './template-steps.ts'

const template = (...kinds: StepValues['kind'][]) =>
  kinds.reduce<StepValues[]>((steps, kind) => withAnother(steps, kind), [])
const kinds = (steps: readonly StepValues[]) => steps.map(({ kind }) => kind)
const door = template('prepare', 'bondAndClamp', 'unclampAndDress', 'paint', 'refit', 'bake')

it('adds a bond with its cure, and puts what is done on the vehicle where it is done', () => {
  expect(kinds(door)).toEqual([
    'prepare',
    'bondAndClamp',
    'cure',
    'unclampAndDress',
    'paint',
    'bake',
    'refit',
  ])
})

it('moves and removes a bond together with its cure, from either of them', () => {
  const first = ['bondAndClamp', 'cure', 'prepare', 'unclampAndDress', 'paint', 'bake', 'refit']
  expect(kinds(moved(door, 1, -1))).toEqual(first)
  expect(kinds(moved(door, 2, -1))).toEqual(first)
  expect(kinds(moved(door, 3, -1)).slice(0, 4)).toEqual([
    'prepare',
    'unclampAndDress',
    'bondAndClamp',
    'cure',
  ])
  expect(kinds(moved(door, 0, 1)).slice(0, 3)).toEqual(['bondAndClamp', 'cure', 'prepare'])
  expect(kinds(without(door, 2)).slice(0, 2)).toEqual(['prepare', 'unclampAndDress'])
})

it('leaves a step where it is at either end, and among steps that have an order of their own', () => {
  expect(moved(door, 0, -1)).toBe(door)
  expect(moved(door, 6, 1)).toBe(door)
  expect(moved(door, 3, 1)).toBe(door)
  expect(moved(door, 5, -1)).toBe(door)
  const twoBakes = template('bake', 'bake')
  expect(moved(twoBakes, 0, 1).map(({ id }) => id)).toEqual([twoBakes[1]!.id, twoBakes[0]!.id])
})

it('counts the work of people, and no cure', () => {
  expect(minutesOfPeople([...template('bondAndClamp', 'bake'), { workMinutes: '45', technicians: 2 }])).toBe(
    120,
  )
})

it.each([
  ['Door skin', [], 'doorSkin'],
  ['Door skin', ['doorSkin', 'doorSkin2'], 'doorSkin3'],
  ['2. Tür, hinten', [], 'turHinten'],
  ['屋根', ['template'], 'template2'],
])('names %s, where there are %j, as %s', (name, taken, key) => {
  expect(keyFor(name, taken)).toBe(key)
})
