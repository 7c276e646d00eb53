import { describe, expect, it } from 'vitest'
import { emptyDraft, type Draft } from './application.ts'
import { restoredFrom, type KeptForm } from './kept-form.ts'

const MINUTE = 60_000
const initial = emptyDraft('bay', 53)
const draft: Draft = {
  ...initial,
  cartridgeIds: ['a'],
  dispenserId: 'd',
  panelC: 21,
  airC: 20,
  prepared: ['bareMetal', 'solventWiped', 'dryFit'],
  confirmed: ['spike'],
  overrides: { belowRange: 'Heated with a lamp' },
}
/** As it comes back from the store. */
const stored = (changes: Partial<KeptForm> = {}): KeptForm =>
  JSON.parse(JSON.stringify({ draft, press: {}, attempts: 1, at: 0, measuredAt: 0, ...changes })) as KeptForm

describe('a form that was reloaded', () => {
  it('is as it was left', () => {
    expect(restoredFrom(stored(), initial, 1, 5 * MINUTE)).toEqual({
      draft,
      press: {},
      from: 0,
      isStale: false,
    })
    expect(restoredFrom(null, initial, 1, 0)).toEqual({
      draft: initial,
      press: {},
      from: undefined,
      isStale: false,
    })
  })

  it('begins anew where it was kept by a version that asked in three words', () => {
    const old = stored()
    const threeWords = { surfaces: true, dryFit: true, skimCoat: true }
    const kept = { ...old, draft: { ...old.draft, prepared: threeWords as never } }
    expect(restoredFrom(kept, initial, 1, MINUTE)).toMatchObject({ draft: initial, from: undefined })
  })

  it('has what was emptied empty, and not as it began', () => {
    const emptied = stored({ draft: { ...draft, amountMl: undefined } })
    expect(restoredFrom(emptied, initial, 1, 0).draft.amountMl).toBeUndefined()
  })

  it('asks for temperatures and preparation again after a quarter of an hour, and keeps what was chosen', () => {
    const { draft: old, isStale } = restoredFrom(stored(), initial, 1, 15 * MINUTE + 1)
    expect(isStale).toBe(true)
    expect(old).toEqual({ ...initial, cartridgeIds: ['a'], dispenserId: 'd' })
    expect(restoredFrom(stored(), initial, 1, 15 * MINUTE).isStale).toBe(false)
    // The device's clock was set back.
    expect(restoredFrom(stored({ at: 1, measuredAt: 1 }), initial, 1, 0).draft.confirmed).toEqual([])
  })

  it('makes what was measured no younger by a change of anything else', () => {
    const touched = stored({ at: 14 * MINUTE })
    expect(restoredFrom(touched, initial, 1, 16 * MINUTE)).toMatchObject({ isStale: true, from: 14 * MINUTE })
  })

  it('begins anew on another day, but never loses that the adhesive is on', () => {
    expect(restoredFrom(stored(), initial, 1, 9 * 60 * MINUTE).draft).toEqual(initial)
    const press = { openAt: '2031-05-07T16:00:00Z' }
    expect(restoredFrom(stored({ press }), initial, 1, 900 * MINUTE)).toEqual({
      draft,
      press,
      from: 0,
      isStale: false,
    })
  })

  it('ages after a refusal as ever: nothing was put on', () => {
    const press = { refusedAt: '2031-05-07T16:00:00Z' }
    expect(restoredFrom(stored({ press }), initial, 1, 16 * MINUTE)).toMatchObject({
      isStale: true,
      draft: { panelC: undefined, confirmed: [], overrides: {} },
    })
    expect(restoredFrom(stored({ press }), initial, 1, 900 * MINUTE).press).toEqual({})
  })

  it('is over with the attempt: a press that had arrived is not sent for the next one', () => {
    const press = { openAt: '2031-05-07T16:00:00Z' }
    expect(restoredFrom(stored({ press }), initial, 2, MINUTE)).toEqual({
      draft: initial,
      press: {},
      from: undefined,
      isStale: false,
    })
  })
})
