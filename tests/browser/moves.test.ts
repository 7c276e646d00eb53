import { beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  isShown,
  openAs,
  PHONE,
  post,
  scan,
  visit,
} from './browser.ts'
import { makeWorld, unique, type World } from './world.ts'

describeInBrowser('moving', () => {
  let world: World
  let other: { id: string; name: string }
  beforeAll(async () => {
    world = await makeWorld()
    other = await post(world.owner.context(), '/v1/shops', {
      name: `Other shop ${unique()}`,
      timeZone: 'America/Chicago',
      temperatureUnit: 'F',
    })
  })

  it('puts what was scanned on another shelf, on a phone', async () => {
    const shelf = `Shelf ${unique()}`
    await post(world.owner.context(), `/v1/shops/${world.shop.id}/storageLocations`, { name: shelf })
    const page = await openAs('parts', { size: PHONE })
    await visit(page, `/stock/move?shop=${world.shop.id}`)
    const [first, second, third] = world.cartridges
    await scan(page, first!.code)
    const basket = page.getByRole('list', { name: 'Chosen cartridges' })
    await basket.getByText(first!.code).waitFor()
    // The second one is found by its first letters and tapped.
    await page.getByLabel('Scan what you move').fill(second!.code.slice(0, 4))
    await page.getByRole('button', { name: new RegExp(`^${second!.code}`) }).click()
    const field = page.getByLabel('Scan what you move')
    expect(await field.inputValue()).toBe('')
    // The third by its first letters and Enter: no other begins so.
    await field.fill(third!.code.slice(0, 6))
    await page.getByRole('button', { name: new RegExp(`^${third!.code}`) }).waitFor()
    await field.press('Enter')
    await basket.getByText(third!.code).waitFor()
    await page.getByLabel('Put where').selectOption({ label: shelf })
    expect(await accessibilityFaults(page)).toEqual([])
    await page.getByRole('button', { name: 'Move 3 cartridges' }).click()
    expect(await isShown(page.getByText(`3 cartridges moved to ${shelf}`))).toBe(true)
  })

  it('sends to another shop, where it is taken in; one is lost and turns up', async () => {
    const page = await openAs('parts')
    const [, , third, fourth] = world.cartridges
    await visit(page, `/stock/cartridges/${third!.id}`)
    await page.getByRole('link', { name: 'Move' }).click()
    await page.getByText('To another shop').click()
    await page.getByLabel('Scan what you move').fill(fourth!.code)
    await page.keyboard.press('Enter')
    await page.getByLabel('Send to').selectOption({ label: other.name })
    await page.getByLabel('Why').fill('They run out first')
    await page.getByRole('button', { name: 'Send 2 cartridges' }).click()
    await page.getByRole('link', { name: 'Shipments' }).last().click()
    await visit(page, `/stock/shipments?shop=${other.id}&all=yes`)
    await page.getByText('They run out first').waitFor()
    await page.getByRole('button', { name: `${fourth!.code} was lost` }).click()
    await page.getByLabel('What happened?').fill('The box came open')
    await page.getByRole('button', { name: 'Give it up as lost' }).click()
    await page.getByRole('button', { name: 'It has arrived' }).click()
    await page.getByRole('button', { name: `${fourth!.code} has turned up` }).click()
    await expect.poll(() => page.getByText(/^Arrived/).count(), { timeout: 20_000 }).toBe(2)
    expect(await accessibilityFaults(page)).toEqual([])
  })
})
