import type { Page, Route } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { checkDigit } from '../../packages/stock/src/index.ts'
import {
  accessibilityFaults,
  describeInBrowser,
  get,
  isShown,
  openAs,
  PHONE,
  post,
  sidewaysPx,
  visit,
} from './browser.ts'
import { makeWorld, unique, type World } from './world.ts'

/** Scans as fast as a hand scanner does, without waiting for any answer. */
async function rattle(page: Page, texts: readonly string[]): Promise<void> {
  await page.locator('input:focus').waitFor()
  for (const text of texts) {
    await page.keyboard.type(text)
    await page.keyboard.press('Enter')
  }
}

describeInBrowser('every scan is kept', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('counts twelve boxes on a slow network that loses an answer, refuses one, and is reloaded on the way', async () => {
    const context = world.owner.context()
    const name = `Shelf ${unique()}`
    const shelf = await post<{ id: string }>(context, `/v1/shops/${world.shop.id}/storageLocations`, { name })
    const { cartridges } = await post<{ cartridges: { id: string; code: string }[] }>(
      context,
      `/v1/shops/${world.shop.id}/receipts`,
      {
        productId: world.product.id,
        lotNumber: `C${unique()}`,
        printedExpiry: { date: '2035-02-28' },
        cartridges: 12,
        locationId: shelf.id,
      },
    )
    const page = await openAs('parts', { size: PHONE })
    await visit(page, `/stock/counts?shop=${world.shop.id}`)
    await page.getByLabel('Which shelf').selectOption({ label: name })
    await page.getByRole('button', { name: 'Count it' }).click()
    await page.getByLabel('Scan every cartridge on the shelf').waitFor()

    const keys = new Map<string, string[]>()
    const third = cartridges[2]!.id
    let goOn = () => {}
    const reloaded = new Promise<void>((resolve) => {
      goOn = resolve
    })
    const slow = async (route: Route) => {
      await new Promise((resolve) => setTimeout(resolve, 400))
      const request = route.request()
      const { cartridgeId } = (request.postDataJSON() ?? {}) as { cartridgeId?: string }
      if (cartridgeId === undefined) return route.continue()
      // However slow the machine: the reload comes while some are in, and others are not.
      if (keys.size === 4 && !keys.has(cartridgeId)) await reloaded
      const before = keys.get(cartridgeId) ?? []
      keys.set(cartridgeId, [...before, request.headers()['idempotency-key'] ?? 'none'])
      // What was held over the reload is gone with its page: it is sent again.
      if (cartridgeId !== third || before.length > 0) return route.continue().catch(() => undefined)
      // It was done, and nobody hears of it.
      await route.fetch()
      return route.abort()
    }
    await page.route('**/v1/shops/*/scans', slow)
    await page.route('**/v1/stockCounts/*/entries', slow)
    const codes = cartridges.map(({ code }) => code)
    await rattle(page, [...codes.slice(0, 6), 'ZZZZ-ZZZZ', ...codes.slice(6)])
    const finish = page.getByRole('button', { name: 'Finish and show differences' })
    expect(await isShown(page.getByText(/scans are not in yet$/))).toBe(true)
    expect(await finish.isDisabled()).toBe(true)
    // The screen is reloaded while scans are on their way.
    await page.getByText(/^[2-5] scans sent/).waitFor()
    await page.reload()
    goOn()
    await page.getByRole('heading', { name: '12 seen' }).waitFor({ timeout: 90_000 })
    expect(keys.get(third)!.length).toBeGreaterThan(1)
    expect([...keys.values()].map((each) => new Set(each).size)).toEqual(Array(12).fill(1))
    const refused = page.getByRole('listitem').filter({ hasText: 'ZZZZ-ZZZZ' })
    expect(await isShown(refused.getByText('No cartridge'))).toBe(true)
    expect(await isShown(page.getByText('Look at what was refused'))).toBe(true)
    expect(await finish.isDisabled()).toBe(true)
    expect(await sidewaysPx(page)).toBe(0)
    expect(await accessibilityFaults(page)).toEqual([])
    await refused.getByRole('button', { name: 'Dismiss ZZZZ-ZZZZ' }).click()
    await finish.click()
    await page.getByText('12 seen, nothing differs.').waitFor()
  })

  it('receives every lot of a delivery once, though an answer is lost and another lot comes between', async () => {
    const [first, second] = [`A${unique()}`, `B${unique()}`]
    const body = `0953${String(Date.now() % 1e9).padStart(9, '0')}`
    const gtin = `${body}${checkDigit(body)}`
    await post(world.owner.context(), `/v1/products/${world.product.id}/gtins`, { gtin, cartridges: 1 })
    const page = await openAs('parts')
    await visit(page, `/stock/receive?shop=${world.shop.id}`)
    let lost = 0
    const slow = async (route: Route) => {
      await new Promise((resolve) => setTimeout(resolve, 250))
      return route.continue()
    }
    await page.route('**/v1/shops/*/scans', slow)
    await page.route('**/v1/shops/*/receipts', async (route) => {
      if (lost > 0) return slow(route)
      lost += 1
      await route.fetch()
      return route.abort()
    })
    const label = (lot: string) => `01${gtin}17350200${'10'}${lot}`
    await rattle(page, [first, first, second, first, second].map(label))
    const receive = page.getByRole('button', { name: /^Receive/ })
    expect(await receive.isDisabled()).toBe(true)
    const lots = page.getByRole('list', { name: 'Lots of this delivery' })
    await lots.getByText('3 cartridges').waitFor()
    await page.getByText('5 scans sent').waitFor()
    expect(await isShown(lots.getByText('2 cartridges'))).toBe(true)
    await page.setViewportSize(PHONE)
    expect(await sidewaysPx(page)).toBe(0)
    expect(await accessibilityFaults(page)).toEqual([])
    await page.reload()
    await page.getByRole('button', { name: 'Receive 2 lots' }).click()
    await page.getByText('3 received').waitFor()
    await page.getByText('2 received').waitFor()
    expect(lost).toBe(1)
    for (const [lot, sealed] of [
      [first, 3],
      [second, 2],
    ]) {
      const { items } = await get<{ items: { onHand: { sealed: number }[] }[] }>(
        page.context(),
        `/v1/lots?lotNumber=${lot}`,
      )
      expect(items[0]?.onHand[0]?.sealed).toBe(sealed)
    }
  })
})
