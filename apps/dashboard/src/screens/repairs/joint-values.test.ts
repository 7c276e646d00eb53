import { expect, it } from 'vitest'
import { initialJoint, jointBody } from './joint-values.ts'

it('sends no procedure when none is given', () => {
  expect(jointBody({ ...initialJoint, lengthMm: '1200' })).toMatchObject({ procedure: null, lengthMm: 1200 })
})

it('sends a half-filled procedure, so that the service names what is missing', () => {
  const body = jointBody({ ...initialJoint, procedure: { document: 'B-12', revision: '', lookedUpOn: '' } })
  expect(body.procedure).toEqual({ document: 'B-12', revision: '', lookedUpOn: '' })
})
