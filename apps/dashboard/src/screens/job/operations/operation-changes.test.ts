import { expect, it } from 'vitest'
import type { Operation } from '../../../api/types.ts'
import { valuesOf } from '../../../features/operations/step-values.ts'
import { changesOf, chainsOf, placeAfterMove } from './operation-changes.ts'

const operation = (id: string, kind: Operation['kind'], changes: Partial<Operation> = {}): Operation => ({
  id,
  shopId: 'shop',
  repairOrderId: 'order',
  jointId: 'a',
  jointName: 'Door',
  position: 1,
  kind,
  name: id,
  place: 'bay',
  workMinutes: 30,
  technicians: 1,
  skill: null,
  clampSets: 0,
  attributes: [],
  highestMetalC: null,
  bakeProgram: null,
  startedAt: null,
  finishedAt: null,
  expectedEndAt: null,
  hasBegun: false,
  version: 1,
  ...changes,
})
const PROGRAM = {
  setPointC: 70,
  airToleranceC: 3,
  metalTargetC: 60,
  dwellMinutes: 30,
  airStartC: 20,
  coolAirC: 20,
  touchC: 40,
}

it('sends what was changed, and nothing else', () => {
  const before = valuesOf(operation('prepare', 'prepare', { skill: 'body' }))
  expect(changesOf(before, { ...before })).toEqual({})
  expect(changesOf(before, { ...before, workMinutes: '45', skill: '', attributes: ['lift'] })).toEqual({
    workMinutes: 45,
    skill: null,
    attributes: ['lift'],
  })
  // What was left empty goes as nothing that there can be: the service names the field.
  expect(changesOf(before, { ...before, workMinutes: '' })).toEqual({ workMinutes: 0 })
})

it('turns a bake from minutes to a program and back, and leaves the minutes of a program alone', () => {
  const vehicle = { jointId: null, jointName: null, place: 'oven', technicians: 0 } as const
  const byMinutes = valuesOf(operation('bake', 'bake', { ...vehicle, highestMetalC: 60 }))
  expect(changesOf(byMinutes, { ...byMinutes, bakeBy: 'program' })).toEqual({
    bakeProgram: expect.objectContaining({ metalTargetC: 60 }),
  })
  const byProgram = valuesOf(
    operation('bake', 'bake', { ...vehicle, workMinutes: 90, highestMetalC: 73, bakeProgram: PROGRAM }),
  )
  expect(changesOf(byProgram, { ...byProgram, name: 'Long bake' })).toEqual({ name: 'Long bake' })
  expect(changesOf(byProgram, { ...byProgram, bakeBy: 'minutes', workMinutes: 80 })).toEqual({
    bakeProgram: null,
    workMinutes: 80,
    highestMetalC: 73,
  })
})

const door = [
  operation('prepare', 'prepare'),
  operation('bond', 'bondAndClamp'),
  operation('cure', 'cure', { workMinutes: null, technicians: 0 }),
  operation('dress', 'unclampAndDress'),
]
const ofVehicle = { jointId: null, jointName: null }
const vehicle = [
  operation('seal', 'sealAndPrime', ofVehicle),
  operation('coat', 'paint', ofVehicle),
  operation('second coat', 'paint', ofVehicle),
]

it('says what an operation comes after once it has moved, a bond with its cure', () => {
  expect(placeAfterMove(door, 0, 1)).toBe('cure')
  expect(placeAfterMove(door, 1, -1)).toBeNull()
  expect(placeAfterMove(door, 2, -1)).toBeNull()
  expect(placeAfterMove(door, 1, 1)).toBe('dress')
  expect(placeAfterMove(door, 2, 1)).toBe('dress')
  expect(placeAfterMove(door, 3, -1)).toBe('prepare')
  expect(placeAfterMove(door, 0, -1)).toBeUndefined()
  expect(placeAfterMove(door, 3, 1)).toBeUndefined()
})

it('moves what is done on the vehicle among its own kind only', () => {
  expect(placeAfterMove(vehicle, 1, -1)).toBeUndefined()
  expect(placeAfterMove(vehicle, 1, 1)).toBe('second coat')
  expect(placeAfterMove(vehicle, 2, -1)).toBeNull()
})

it('lists joint by joint, and the vehicle last', () => {
  const rail = operation('weld', 'weld', { jointId: 'b', jointName: 'Rail' })
  expect(
    chainsOf([...vehicle.slice(0, 1), ...door, rail]).map(({ name, chain }) => [name, chain.length]),
  ).toEqual([
    ['Door', 4],
    ['Rail', 1],
    ['On the vehicle, after all its joints', 1],
  ])
})
