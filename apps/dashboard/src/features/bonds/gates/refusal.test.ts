import { describe, expect, it } from 'vitest'
import { ProblemError, UnreachableError } from '../../../api/problem.ts'
import { gatesOf, mayBeOverridden, overridesOf, refusalOf } from './refusal.ts'

const readings = (joint: string) => ({
  code: 'too-few-readings',
  message: `${joint}: 1 of 2 panel readings`,
  overridable: true,
})
const curing = { code: 'handling-strength', message: 'Sill: at 40 %' }

describe('gatesOf', () => {
  it('asks once for what stands against two joints under one code', () => {
    const gates = gatesOf([readings('Sill'), curing, readings('Roof')])
    expect(gates.map(({ code, isOverridable, reasons }) => [code, isOverridable, reasons.length])).toEqual([
      ['too-few-readings', true, 2],
      ['handling-strength', false, 1],
    ])
  })
})

describe('refusalOf', () => {
  it('is a refusal only where something of it may be overridden', () => {
    expect(refusalOf(new ProblemError('not-ready', 409, '', [readings('Sill'), curing]))).toHaveLength(2)
    expect(refusalOf(new ProblemError('not-ready', 409, '', [curing]))).toBeUndefined()
    expect(refusalOf(new UnreachableError(undefined))).toBeUndefined()
    expect(refusalOf(null)).toBeUndefined()
  })
})

it('goes on only when nothing remains that nobody may override', () => {
  expect(mayBeOverridden([readings('Sill')])).toBe(true)
  expect(mayBeOverridden([readings('Sill'), curing])).toBe(false)
  expect(mayBeOverridden([])).toBe(false)
})

it('sends what was written, and nothing that was left empty', () => {
  expect(overridesOf({ a: ' Seen by me ', b: '  ' })).toEqual([{ code: 'a', reason: 'Seen by me' }])
})
