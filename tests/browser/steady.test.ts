import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { describeInBrowser, DESK, get, openAs, PHONE, visit } from './browser.ts'

interface Items {
  readonly items: readonly { readonly id: string }[]
}

/** Adds up what moves without anybody having touched anything, by the browser's own measure (Layout Instability). */
const WATCH = `
  window.moved = []
  new PerformanceObserver((list) => {
    for (const { value, hadRecentInput, sources } of list.getEntries())
      if (!hadRecentInput) window.moved.push([value, ...sources.map(({ node }) => node?.className ?? '')])
  }).observe({ type: 'layout-shift', buffered: true })
`
type Moved = readonly (readonly [share: number, ...what: string[]])[]

describeInBrowser('while a screen loads', () => {
  let addresses: readonly string[]
  beforeAll(async () => {
    const context = (await openAs('owner')).context()
    const order = (await get<Items>(context, '/v1/repairOrders?limit=1&state=open')).items[0]!
    const shop = (await get<Items>(context, '/v1/shops')).items[0]!
    addresses = ['/', `/jobs/${order.id}`, `/plan?shop=${shop.id}`, '/stock', `/stock?shop=${shop.id}`]
  })

  it.each([
    { on: 'a desk', size: DESK },
    { on: 'a phone', size: PHONE },
  ])('nothing moves on $on that somebody may have begun to read', async ({ size }) => {
    for (const address of addresses) {
      const page = await openAs('owner', { size })
      await page.addInitScript(WATCH)
      await visit(page, address)
      await settled(page)
      const moved = await page.evaluate<Moved>('window.moved')
      const share = moved.reduce((sum, [value]) => sum + value, 0)
      // The limit for 'good' is 0.1; a fifth of it, for what rounding moves.
      expect(share, `${address}: ${JSON.stringify(moved)}`).toBeLessThanOrEqual(0.02)
      await page.context().close()
    }
  })
})

/** Waits until the page asks for nothing more. From outside, as in `visit`. */
async function settled(page: Page): Promise<void> {
  const asked = () => page.evaluate<number>(`performance.getEntriesByType('resource').length`)
  for (let before = -1, now = await asked(); now !== before;) {
    await page.waitForTimeout(1_000)
    before = now
    now = await asked()
  }
}
