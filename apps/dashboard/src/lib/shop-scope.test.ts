import { expect, it } from 'vitest'
import { chooseShop } from './shop-scope.ts'

const shop = (id: string) => ({ id, name: id, timeZone: 'utc', temperatureUnit: 'C' as const, version: 1 })
const shops = [shop('a'), shop('b'), shop('c')]

it('follows the address first', () => {
  expect(chooseShop({ fromUrl: 'b', remembered: 'c', own: 'a', shops })?.id).toBe('b')
})
it('then what was chosen last, also all of them', () => {
  expect(chooseShop({ fromUrl: undefined, remembered: 'c', own: 'a', shops })?.id).toBe('c')
  expect(chooseShop({ fromUrl: undefined, remembered: 'all', own: 'a', shops })).toBeUndefined()
})
it("then one's own shop", () => {
  expect(chooseShop({ fromUrl: undefined, remembered: null, own: 'a', shops })?.id).toBe('a')
  expect(chooseShop({ fromUrl: undefined, remembered: null, own: undefined, shops })).toBeUndefined()
})
it('passes over a shop that is gone', () => {
  expect(chooseShop({ fromUrl: 'x', remembered: 'y', own: undefined, shops })).toBeUndefined()
})
it('shows the only shop there is', () => {
  expect(chooseShop({ fromUrl: undefined, remembered: 'all', own: undefined, shops: [shop('a')] })?.id).toBe(
    'a',
  )
})
