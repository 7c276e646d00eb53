import { describe, expect, it } from 'vitest'
import { readerFrom } from './reader-of.ts'

describe('how somebody reads', () => {
  it('is as the country of the browser measures and counts its week', () => {
    expect(readerFrom({}, 'es-US')).toMatchObject({
      language: 'es',
      temperature: 'F',
      volume: 'flOz',
      length: 'in',
      clock: '12h',
      firstDay: 7,
    })
    expect(readerFrom({}, 'es-MX')).toMatchObject({ language: 'es', volume: 'mL', length: 'mm', firstDay: 1 })
    expect(readerFrom({}, 'fr-FR').language).toBe('en')
    expect(readerFrom({}, 'not a tag').language).toBe('en')
  })

  it('is as chosen before that, each by itself', () => {
    const chosen = { language: 'es', volume: null, length: 'in', firstDay: 6 } as const
    expect(readerFrom(chosen, 'en-US')).toMatchObject({
      language: 'es',
      volume: 'flOz',
      length: 'in',
      firstDay: 6,
    })
  })
})
