import { beforeAll, expect, it } from 'vitest'
import { describeInBrowser, isShown, openAs, PHONE, visit } from './browser.ts'
import { bookingsOf, addBay, makeJob, makeWorld, type World } from './world.ts'

describeInBrowser('the scheduler', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('books by keyboard, is told who has the place, moves and cancels', async () => {
    const { number, vehicle } = await makeJob(world)
    const page = await openAs('scheduler')
    await visit(page, `/schedule?shop=${world.shop.id}&from=2035-03-05`)
    await page.getByRole('button', { name: 'New booking' }).focus()
    await page.keyboard.press('Enter')
    const dialog = page.getByRole('dialog', { name: new RegExp(`New booking|${number}`) })
    await dialog.getByLabel('Repair order').selectOption({ label: `${number}: ${vehicle}` })
    await dialog.getByLabel(/Bay, oven/).selectOption({ label: world.bay.name })
    await dialog.getByLabel('From').fill('2035-03-05T08:00')
    await dialog.getByLabel('To').fill('2035-03-05T12:00')
    await page.keyboard.press('Enter')
    await dialog.waitFor({ state: 'detached' })
    const bar = page.getByRole('button', {
      name: new RegExp(`${number}, Mon 5 Mar, 08:00 to Mon 5 Mar, 12:00`),
    })
    await bar.waitFor()

    await page.getByRole('button', { name: world.bay.name, exact: true }).click()
    await dialog.getByLabel('Repair order').selectOption({ label: `${number}: ${vehicle}` })
    await dialog.getByLabel('From').fill('2035-03-05T11:00')
    await dialog.getByLabel('To').fill('2035-03-05T15:00')
    await dialog.getByRole('button', { name: 'Book' }).click()
    await dialog
      .getByRole('alert')
      .getByText(/ is booked .* for /)
      .first()
      .waitFor()
    expect(await dialog.getByLabel('From').inputValue()).toBe('2035-03-05T11:00')
    await dialog.getByLabel('From').fill('2035-03-05T12:00')
    await dialog.getByRole('button', { name: 'Book' }).click()
    await dialog.waitFor({ state: 'detached' })

    await bar.click()
    await dialog.getByLabel(/Bay, oven/).selectOption({ label: world.otherBay.name })
    await dialog.getByRole('button', { name: 'Save' }).click()
    await dialog.waitFor({ state: 'detached' })
    await page
      .getByRole('region', { name: world.otherBay.name })
      .getByRole('button', { name: new RegExp(number) })
      .click()
    await dialog.getByRole('button', { name: 'Cancel booking…' }).click()
    await page.getByRole('button', { name: 'Cancel it' }).click()
    await dialog.waitFor({ state: 'detached' })
    const { items } = await bookingsOf(world)
    expect(items.filter(({ resourceName }) => resourceName === world.otherBay.name)).toEqual([])
  })

  it('refuses an hour that the clocks skip before anything is sent', async () => {
    const { number, vehicle } = await makeJob(world, world.otherBay)
    const page = await openAs('scheduler')
    await visit(page, `/schedule?shop=${world.shop.id}`)
    await page.getByRole('button', { name: 'New booking' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('Repair order').selectOption({ label: `${number}: ${vehicle}` })
    await dialog.getByLabel(/Bay, oven/).selectOption({ label: world.bay.name })
    // Denver goes from 02:00 to 03:00 on the second Sunday of March (US Energy Policy Act of 2005).
    await dialog.getByLabel('From').fill('2035-03-11T02:30')
    await dialog.getByLabel('To').fill('2035-03-11T09:00')
    await dialog.getByRole('button', { name: 'Book' }).click()
    expect(await isShown(dialog.getByText(/02:30 does not exist on that day/))).toBe(true)
  })

  it('has a list in place of the timeline on a phone', async () => {
    const { number } = await makeJob(world, await addBay(world))
    const page = await openAs('scheduler', { size: PHONE })
    await visit(page, `/schedule?shop=${world.shop.id}`)
    await page.getByRole('button', { name: new RegExp(number) }).click()
    const link = page.getByRole('dialog').getByRole('link', { name: /Open the job/ })
    expect(await isShown(link)).toBe(true)
  })
})
