import { expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  isShown,
  openAs,
  PHONE,
  post,
  sidewaysPx,
  visit,
} from './browser.ts'
import { makeJob, makeWorld, startBond } from './world.ts'

describeInBrowser('whoever must have it sooner', () => {
  it('is told how warm to keep bay or metal, what a degree saves, and what forbids more', async () => {
    const world = await makeWorld()
    const { order, joint } = await makeJob(world)
    const bond = await startBond(world, joint)
    await post(world.owner.context(), `/v1/bonds/${bond.id}/clamping`, {})
    const page = await openAs('scheduler', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByText('It must be ready sooner? See what would help').click()
    // Some minutes sooner than the careful line has it by itself, and not so soon that no heat would do.
    const wish = new Date(Date.now() + 4.2 * 3_600_000).toLocaleString('sv-SE', {
      timeZone: 'America/Denver',
    })
    await page.getByLabel('I want to move it by').fill(wish.slice(0, 16).replace(' ', 'T'))
    await page.getByRole('button', { name: 'What would help?' }).click()
    const answer = page.getByRole('region', { name: /^Outer sill, left: what would have it ready by/ })
    const degrees = async () =>
      Number(/Keep .* at ([\d.]+)\s°F/.exec(await answer.getByText(/^Keep/).innerText())?.[1])
    await answer.getByText(/^Keep the bay at/).waitFor()
    const bay = await degrees()
    expect(bay).toBeGreaterThan(73)
    expect(await isShown(answer.getByText(/min for each °F/))).toBe(true)
    expect(await isShown(answer.getByText(/176.0\s°F: its data sheet credits no heat above that/))).toBe(true)

    await page.getByLabel('Warmed by').selectOption('A lamp on the metal')
    await page.getByLabel('Held, plus or minus').fill('3.6')
    await page.getByRole('button', { name: 'What would help?' }).click()
    await answer.getByText(/^Keep the metal at/).waitFor()
    expect(await degrees()).toBeLessThanOrEqual(bay)

    await page.getByLabel('At most, if there is a limit').fill('75')
    await page.getByRole('button', { name: 'What would help?' }).click()
    expect(await isShown(answer.getByText('Nothing: not even the metal at 75.0 °F'))).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)

    await page.getByLabel('I want to move it by').fill('2020-01-01T08:00')
    await page.getByRole('button', { name: 'What would help?' }).click()
    expect(await isShown(page.getByText('That is over: wish for a later time.'))).toBe(true)
  })
})

describeInBrowser('the page of a product', () => {
  it('says how far one cartridge goes, and prints that table alone', async () => {
    const world = await makeWorld()
    const page = await openAs('parts', { size: PHONE })
    await visit(page, `/products/${world.product.id}`)
    const table = page.getByRole('table', { name: 'Metres of joint for each cartridge' })
    // (200 - 5) mL less a tenth, over 19.6 mL a metre.
    const row = table.getByRole('row', { name: /^Round, 5\smm/ })
    expect(await isShown(row.getByRole('cell', { name: '8.93 m' }))).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    await page.evaluate("document.documentElement.dataset.print = 'reach'")
    await page.emulateMedia({ media: 'print' })
    expect(await table.isVisible()).toBe(true)
    expect(await page.getByRole('heading', { name: 'Limits' }).isVisible()).toBe(false)
  })
})
