import { describe, expect, it } from 'vitest'
import { preparedOf, stepsAsked, type PreparationStep } from './steps-asked.ts'

const codes = (...asked: Parameters<typeof stepsAsked>) => stepsAsked(...asked).map(({ code }) => code)

describe('the steps of a preparation', () => {
  it('ask for bare metal, unless the product on file may go on e-coat', () => {
    const bare = stepsAsked('mildSteel', { toleratesPrimer: false })[0]!
    expect(bare).toMatchObject({ code: 'bareMetal', isOnFile: true, drawing: 'grind' })
    expect(stepsAsked('mildSteel', { toleratesPrimer: true })[0]).toMatchObject({
      code: 'abraded',
      isOnFile: true,
    })
    // Of a product that is not known the most is asked, and nobody says that it stands on file.
    expect(stepsAsked('mildSteel', undefined)[0]).toMatchObject({ code: 'bareMetal', isOnFile: false })
  })

  it('speak of zinc only where there may be some, and of no metal where there is none', () => {
    expect(stepsAsked('aluminium6xxx', undefined)[0]!.title).toBe('start-bond.prepare.bareMetal')
    expect(stepsAsked('highStrengthSteel', undefined)[0]!.title).toBe('start-bond.prepare.bareSteel')
    expect(stepsAsked('carbonFibre', { toleratesPrimer: false })[0]!.title).toBe('start-bond.prepare.fibre')
    expect(stepsAsked('glassFibre', undefined).at(-1)!.title).toBe('start-bond.prepare.skimCoatFibre')
  })

  it('satisfy the gate once each is ticked, and with any one of them left out do not', () => {
    for (const product of [{ toleratesPrimer: true }, { toleratesPrimer: false }]) {
      const all = codes('mildSteel', product)
      expect(Object.values(preparedOf(all))).toEqual([true, true, true])
      for (const left of all) {
        const words = Object.values(preparedOf(all.filter((code) => code !== left)))
        expect({ left, said: words.every(Boolean) }).toEqual({ left, said: false })
      }
    }
    expect(preparedOf([] as PreparationStep[])).toEqual({ surfaces: false, dryFit: false, skimCoat: false })
  })
})
