import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  DESK,
  get,
  openAs,
  PHONE,
  sidewaysPx,
  visit,
  withoutErrors,
  isShown,
} from './browser.ts'

interface Found {
  readonly items: readonly { readonly id: string; readonly lotId: string; readonly productId: string }[]
}

/** Every screen, with things of the demo chain where an address needs one. */
async function addresses(page: Page): Promise<readonly string[]> {
  const context = page.context()
  const cartridge = (await get<Found>(context, '/v1/cartridges?limit=1')).items[0]!
  const order = (await get<Found>(context, '/v1/repairOrders?limit=1&state=open')).items[0]!
  const { joints } = await get<{ joints: { id: string }[] }>(context, `/v1/repairOrders/${order.id}`)
  return [
    '/',
    '/overview',
    '/my-work',
    '/bays',
    '/bays?wall=true',
    '/jobs',
    '/jobs/new',
    `/jobs/${order.id}`,
    `/jobs/${order.id}/edit`,
    `/jobs/${order.id}/joints/new`,
    `/jobs/${order.id}/joints/${joints[0]?.id}/bond`,
    '/plan',
    '/plan?rows=people&zoom=week',
    '/plan?rows=vehicles&zoom=month',
    '/plan/setup',
    '/plan/setup/templates/roof',
    '/plan/figures',
    '/schedule',
    '/schedule?days=7',
    '/stock',
    '/stock/receive',
    '/stock/lots',
    '/stock/move',
    '/stock/shipments?all=yes',
    `/stock/lots/${cartridge.lotId}`,
    `/stock/lots/${cartridge.lotId}/recall`,
    '/stock/counts',
    '/stock/reservations',
    '/stock/movements',
    `/stock/cartridges/${cartridge.id}`,
    '/ordering',
    '/waste',
    '/products',
    '/products/new',
    `/products/${cartridge.productId}`,
    `/products/${cartridge.productId}/sheet`,
    '/alerts',
    '/alerts?closed=yes',
    '/admin/people',
    '/admin/qualifications',
    '/admin/shops',
    '/admin/equipment',
    '/admin/ordering',
    '/admin/tokens',
    '/admin/webhooks',
  ]
}

const OTHERWISE_ON_A_PHONE = /^\/($|my-work$|bays$|jobs\/|plan$|schedule$|stock$)/

// Two rounds see both sizes and both colour schemes of every screen; four would find no more and take twice as long.
describeInBrowser.each([
  { name: 'desk, light', size: DESK, scheme: 'light' },
  { name: 'phone, dark', size: PHONE, scheme: 'dark' },
] as const)('every screen on $name', ({ size, scheme }) => {
  let page: Page
  beforeAll(async () => {
    page = await openAs('owner', { size, scheme })
  })

  it('opens without error, has a title of its own, fits, and passes axe', async () => {
    const titles = new Set<string>()
    for (const address of await addresses(page)) {
      await withoutErrors(page, () => visit(page, address))
      titles.add(await page.title())
      // On a phone what is built otherwise there: the bar below, cards and lists in place of tables and timelines.
      if (size === DESK || OTHERWISE_ON_A_PHONE.test(address))
        expect({ address, faults: await accessibilityFaults(page) }).toEqual({ address, faults: [] })
      expect({ address, sidewaysPx: await sidewaysPx(page) }).toEqual({ address, sidewaysPx: 0 })
    }
    // Wall screen, week, closed alerts and the equipment of the same shop share a title with their plain screen.
    expect(titles.size).toBeGreaterThanOrEqual(24)
  }, 300_000)
})

describeInBrowser('an address that leads nowhere', () => {
  it('says so, and a bad filter is passed over', async () => {
    const page = await openAs('viewer')
    await visit(page, '/no/such/page')
    await page.getByText('There is nothing at this address.').waitFor()
    await visit(page, '/stock?urgency=nonsense&product=1')
    expect(await isShown(page.getByRole('heading', { name: 'Stock', level: 1 }))).toBe(true)
  })
})
