import { expect, it } from 'vitest'
import { signed } from './signed.ts'

it('shows the sign of a change and nothing for none', () => {
  expect([signed(3), signed(-40), signed(0)]).toEqual(['+3', '\u221240', ''])
})
