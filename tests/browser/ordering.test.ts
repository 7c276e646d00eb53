import { beforeAll, expect, it } from 'vitest'
import { accessibilityFaults, describeInBrowser, get, openAs, PHONE, sidewaysPx, visit } from './browser.ts'

interface Line {
  readonly productId: string
  readonly productName: string
  readonly onOrder: number
  readonly supply: { readonly supplierName: string } | null
}

describeInBrowser('ordering', () => {
  let shopId: string
  beforeAll(async () => {
    const page = await openAs('parts')
    const { items } = await get<{ items: { id: string; name: string }[] }>(page.context(), '/v1/shops')
    shopId = items.find(({ name }) => name === 'Prairie Cross')!.id
  })
  const lines = async (page: Awaited<ReturnType<typeof openAs>>) =>
    (await get<{ items: Line[] }>(page.context(), `/v1/shops/${shopId}/replenishment`)).items

  it('drafts an order from what is proposed, sends it, and counts it as on order', async () => {
    const page = await openAs('parts')
    await visit(page, `/ordering?shop=${shopId}`)
    const line = (await lines(page)).find(({ supply }) => supply !== null)!
    const section = page.getByRole('region', { name: line.supply!.supplierName })
    // Whatever else is proposed there is left out.
    for (const input of await section.getByLabel(/^Cartridges of/).all()) await input.fill('0')
    await section.getByLabel(`Cartridges of ${line.productName} to order`).fill('6')
    await section.getByRole('button', { name: 'Draft order' }).click()
    await page.getByRole('heading', { name: /^Order \d+$/ }).waitFor()
    await page.getByText('Draft', { exact: true }).waitFor()
    await page.getByRole('button', { name: 'It has been sent' }).click()
    await page.getByText(/^Placed, expected/).waitFor()
    const after = (await lines(page)).find(({ productId }) => productId === line.productId)!
    expect(after.onOrder).toBe(line.onOrder + 6)
    await page.getByRole('button', { name: 'Cancel what has not come' }).click()
    await page.getByLabel('Why?').fill('Ordered twice by mistake')
    await page.getByRole('button', { name: 'Cancel the order' }).click()
    await page.getByText('Cancelled', { exact: true }).waitFor()
  })

  it('changes a price, and the set-up fits a phone', async () => {
    const page = await openAs('parts', { size: PHONE })
    await visit(page, '/admin/ordering')
    const name = (await lines(page))[0]!.productName
    await page.getByRole('button', { name: `Change the supply of ${name}` }).click()
    await page.getByLabel(/^Unit cost/).fill('61.25')
    await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click()
    await page.getByRole('table', { name: 'Where each product is ordered' }).getByText('$61.25').waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
  })

  it('foresees waste, and finds transfers that pay', async () => {
    const page = await openAs('parts')
    await visit(page, '/waste')
    await page.getByRole('table', { name: 'Expected loss by lot and shop' }).waitFor()
    // The last day that counts, as the stock list has it; the instant itself is the midnight after.
    const first = page.getByRole('table', { name: 'Expected loss by lot and shop' }).getByRole('row').nth(1)
    const day = await first.locator('time').textContent()
    const lot = await first.getByRole('link').first().getAttribute('href')
    const stock = await openAs('parts')
    await visit(stock, lot!)
    await stock.getByRole('main').getByText(day!).first().waitFor()
    await page.getByRole('button', { name: 'Find transfers that pay' }).click()
    await page.getByText(/^proved, to within|the best found/).waitFor({ timeout: 60_000 })
    const rows = await page.getByRole('table', { name: 'Transfers that pay' }).getByRole('row').count()
    expect(rows).toBeGreaterThan(1)
    expect(await accessibilityFaults(page)).toEqual([])
  })
})
