import { beforeAll, expect, it } from 'vitest'
import { describeInBrowser, get, openAs, visit, isShown } from './browser.ts'
import { makeWorld, unique, type World } from './world.ts'

describeInBrowser('the parts manager', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('receives a lot that is printed with a month only: its last day counts', async () => {
    const page = await openAs('parts')
    await visit(page, `/stock/receive?shop=${world.shop.id}`)
    const lot = `M${unique()}`
    await page.getByLabel('Product').selectOption({ label: world.product.name })
    await page.getByLabel('Lot number').fill(lot)
    await page.getByText('Month only').click()
    await page.getByLabel('Printed expiry').fill('2035-02')
    await page.getByLabel('Cartridges').fill('3')
    await page.getByRole('button', { name: 'Receive' }).click()
    await page.getByText('3 received').waitFor()
    const { items } = await get<{ items: { id: string; printedExpiry: string }[] }>(
      page.context(),
      `/v1/lots?lotNumber=${lot}`,
    )
    expect(items[0]?.printedExpiry).toBe('2035-02-28')
  })

  it('is told beside the field what is wrong, and loses nothing typed', async () => {
    const page = await openAs('parts')
    await visit(page, `/stock/receive?shop=${world.shop.id}`)
    await page.getByLabel('Product').selectOption({ label: world.product.name })
    await page.getByLabel('Lot number').fill(world.lotNumber)
    await page.getByLabel('Printed expiry').fill('2034-01-01')
    await page.getByRole('button', { name: 'Receive' }).click()
    await page
      .getByText(/2034-01-01, but lot .* is on file with/)
      .first()
      .waitFor()
    expect(await page.getByLabel('Lot number').inputValue()).toBe(world.lotNumber)
  })

  it('opens, corrects and discards a cartridge, and the ledger says who and why', async () => {
    const page = await openAs('parts')
    const cartridge = world.cartridges[5]!
    await visit(page, `/stock/cartridges/${cartridge.id}`)
    await page.getByRole('button', { name: 'Open it' }).click()
    await page.getByLabel('For what').fill('Trial bead')
    await page.getByRole('dialog').getByRole('button', { name: 'Open it' }).click()
    await page.getByRole('button', { name: 'New nozzle' }).click()
    await page.getByRole('button', { name: 'It is on' }).click()
    await page.getByText('195 mL').first().waitFor()
    await page.getByRole('button', { name: 'Correct content' }).click()
    await page.getByLabel('Remaining content').fill('150')
    await page.getByLabel('Why does the record differ?').fill('Weighed it on the bench')
    await page.getByRole('button', { name: 'Record correction' }).click()
    await page.getByText('150 mL').first().waitFor()
    await page.getByRole('button', { name: 'Discard' }).click()
    await page.getByLabel('Why is it discarded?').fill('Nozzle end has skinned over')
    await page.getByRole('dialog').getByRole('button', { name: 'Discard' }).click()
    expect(await isShown(page.getByText('No: discarded'))).toBe(true)
    const ledger = page.getByRole('table', { name: 'Stock movements, newest first' })
    for (const why of ['Trial bead', 'Weighed it on the bench', 'Nozzle end has skinned over']) {
      await ledger.getByText(why).waitFor()
    }
  })

  it('finds a cartridge by its code, holds the lot, and the cartridge may no longer be used', async () => {
    const page = await openAs('parts')
    const { code } = world.cartridges[1]!
    await visit(page, `/stock?shop=${world.shop.id}`)
    await page.getByLabel('Code on the label').fill(code)
    await page.waitForURL(/code=/)
    await page.getByRole('link', { name: code }).click()
    await page.getByText('May I use it?').waitFor()
    await page.getByRole('link', { name: world.lotNumber }).click()
    await page.getByRole('button', { name: 'Put on hold' }).click()
    await page.getByLabel('Why is it held?').fill('Supplier asks to wait')
    await page.getByRole('button', { name: 'Hold in every shop' }).click()
    await page.getByText('No: on hold in every shop').waitFor()
    await page.goBack()
    await page.getByText('No: on hold').waitFor()
    await page.goForward()
    await page.getByRole('button', { name: 'End the hold' }).click()
    await page.getByLabel('Why may it be used again?').fill('Supplier released it')
    await page.getByRole('dialog').getByRole('button', { name: 'End the hold' }).click()
    expect(await isShown(page.getByRole('button', { name: 'Put on hold' }))).toBe(true)
  })

  it('scrolls through hundreds with a small document', async () => {
    const page = await openAs('parts')
    await visit(page, '/stock')
    await page.getByLabel('Shop in view').selectOption({ label: 'All shops' })
    const rows = page.getByRole('table', { name: 'Cartridges' }).getByRole('row')
    await rows.nth(5).waitFor()
    const counted = async () =>
      Number(/\d+/.exec(await page.getByText(/\d+ (shown|cartridges)/).innerText())?.[0])
    const before = await counted()
    for (let step = 0; step < 12; step += 1) {
      await page.mouse.wheel(0, 4_000)
      await page.waitForTimeout(150)
    }
    await expect.poll(counted, { timeout: 20_000 }).toBeGreaterThan(before)
    expect(await rows.count()).toBeLessThan(80)
  })
})
