import { describe, expect, it } from 'vitest'
import { emptyDraft, type Draft } from './application.ts'
import { preparedOf, stepsAsked, stillAsked } from './prepare/steps-asked.ts'
import { openFields, stepStates } from './steps.ts'

const asked = stepsAsked('mildSteel', { toleratesPrimer: false })
const empty = emptyDraft('', 53)
const prepared = asked.map(({ code }) => code)
const statesOf = (changes: Partial<Draft>) => stepStates(openFields({ ...empty, ...changes }, asked))

describe('the five steps', () => {
  it('begin at the cartridge, and the ones after it come next', () => {
    expect(openFields(empty, asked)).toEqual([
      'cartridge',
      'dispenser',
      'bay',
      'preparation',
      'panel',
      'air',
      'humidity',
    ])
    expect(statesOf({})).toEqual(['now', 'next', 'next', 'next', 'next'])
  })

  it('go on one after the other, and adhesive goes on last', () => {
    const cartridge = { cartridgeIds: ['c'], dispenserId: 'd', bayId: 'b' }
    expect(statesOf(cartridge)).toEqual(['done', 'now', 'next', 'next', 'next'])
    expect(statesOf({ ...cartridge, prepared })).toEqual(['done', 'done', 'now', 'next', 'next'])
    const measured = { panelC: 22, airC: 22, humidityPercent: 45 }
    expect(statesOf({ ...cartridge, prepared, ...measured })).toEqual(['done', 'done', 'done', 'now', 'next'])
  })

  it('have one that was done early as done, and one thing left out as open', () => {
    expect(statesOf({ prepared })).toEqual(['now', 'done', 'next', 'next', 'next'])
    expect(
      statesOf({ prepared: prepared.slice(1), cartridgeIds: ['c'], dispenserId: 'd', bayId: 'b' })[1],
    ).toBe('now')
  })

  it('take no word about a coat for one about bare metal, where the product asks for that by now', () => {
    const coat = stepsAsked('mildSteel', { toleratesPrimer: true }).map(({ code }) => code)
    expect(preparedOf(stillAsked(coat, stepsAsked('mildSteel', { toleratesPrimer: true }))).surfaces).toBe(
      true,
    )
    expect(preparedOf(stillAsked(coat, asked))).toEqual({ surfaces: false, dryFit: true, skimCoat: true })
  })
})
