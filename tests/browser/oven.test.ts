import { beforeAll, expect, it } from 'vitest'
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
import { addBay, bookingsOf, makeJob, makeWorld, startBond, type World } from './world.ts'

interface Named {
  readonly id: string
  readonly name: string
}

describeInBrowser('the oven', () => {
  let world: World
  let oven: Named
  beforeAll(async () => {
    world = await makeWorld()
    oven = await post<Named>(world.owner.context(), `/v1/shops/${world.shop.id}/resources`, {
      kind: 'oven',
      name: 'Test oven',
    })
  })

  it('names each joint that is short of handling strength, and draws the window', async () => {
    const { order, joint } = await makeJob(world)
    await startBond(world, joint)
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByText('May it be baked? Check a program of the oven').click()
    await page.getByRole('button', { name: 'Check the bake' }).click()
    const answer = page.getByRole('region', { name: 'May this vehicle be baked then?' })
    await answer.getByText('No', { exact: true }).waitFor()
    expect(await isShown(answer.getByRole('listitem').filter({ hasText: 'Outer sill, left' }).first())).toBe(
      true,
    )
    const plot = page.locator('figure', { hasText: 'Metal target, 140 °F' })
    await plot.locator('[data-line]').first().waitFor()
    // Air, the metal of one panel, and its target; what the product is rated to beside the vehicle's own limit.
    expect(await plot.locator('[data-line]').count()).toBe(2)
    expect(await isShown(plot.getByText(/rated to 248\s°F/))).toBe(true)
    expect(await page.getByRole('button', { name: 'Book it' }).count()).toBe(0)
    const times = page.getByRole('table', { name: 'Times of the bake' })
    expect(await isShown(times.getByRole('row', { name: /Whole window, to book .*\d+\smin/ }))).toBe(true)
    await page.getByText('The lines in figures').click()
    const figures = page.getByRole('table', { name: 'Air and metal during the bake' })
    expect(await figures.getByRole('row').count()).toBeGreaterThan(20)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
  })

  it('marks an answer as old once something is changed, and books what was checked last', async () => {
    const { order, number } = await makeJob(world, world.otherBay)
    const { version } = await get<{ version: number }>(world.owner.context(), `/v1/repairOrders/${order.id}`)
    await world.owner.context().request.patch(`/v1/repairOrders/${order.id}`, {
      data: { ovenLimitC: 75 },
      headers: { 'if-match': `"${version}"` },
    })
    const page = await openAs('scheduler')
    await visit(page, `/jobs/${order.id}`)
    await page.getByText('May it be baked? Check a program of the oven').click()
    await page.getByLabel('Air set point').fill('170')
    await page.getByRole('button', { name: 'Check the bake' }).click()
    const answer = page.getByRole('region', { name: 'May this vehicle be baked then?' })
    expect(await isShown(answer.getByText(/the vehicle's own limit is 167.0\s°F/))).toBe(true)
    await page.getByLabel('Air set point').fill('158')
    const old = page.getByText(/this answer is of the program before/)
    await old.waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    await page.getByLabel('Metal by then').fill('32')
    await page.getByRole('button', { name: 'Check the bake' }).click()
    await answer.getByText('Yes', { exact: true }).waitFor()
    expect(await old.count()).toBe(0)
    expect(await isShown(page.locator('figure').getByText("Vehicle's own limit, 167 °F"))).toBe(true)
    await page.getByRole('button', { name: 'Book it' }).click()
    await page.getByText(/^Booked: Test oven/).waitFor()
    const { items } = await bookingsOf(world)
    const booked = items.find((each) => each.repairOrderNumber === number && each.resourceName === oven.name)
    expect(booked).toMatchObject({ metalStartC: 0, bakeProgram: { setPointC: 70, metalTargetC: 60 } })

    // The oven is taken now: asked again, the service says by whom.
    await page.getByLabel('Air set point').fill('160')
    await page.getByRole('button', { name: 'Check the bake' }).click()
    await page.getByRole('button', { name: 'Book it' }).click()
    expect(
      await isShown(
        page
          .getByRole('alert')
          .getByText(new RegExp(`Test oven is booked .* ${number}`))
          .first(),
      ),
    ).toBe(true)
  })

  it('is booked from the schedule by its program, for as long as it is worked out to take', async () => {
    const { number } = await makeJob(world, await addBay(world))
    const page = await openAs('scheduler', { size: PHONE })
    await visit(page, `/schedule?shop=${world.shop.id}&from=2035-03-05`)
    await page.getByRole('button', { name: 'New booking' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('Repair order').selectOption({ label: `${number}: Invented car ${number}` })
    await dialog.getByLabel('Bay, oven, clamp set or technician').selectOption({ label: 'Test oven' })
    await dialog.getByRole('button', { name: 'Work out the bake' }).click()
    expect(await isShown(dialog.getByText(/It takes up to .*; the metal gets to 16\d.\d\s°F/))).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    expect(await dialog.getByLabel(/^To/).inputValue()).not.toMatch(/T17:00$/)
    await dialog.getByLabel('Dwell at the target').fill('45')
    await dialog.getByRole('button', { name: 'Book', exact: true }).click()
    expect(await isShown(dialog.getByText(/min with heat-up and cool-down/).first())).toBe(true)
    await dialog.getByRole('button', { name: 'Work out the bake' }).click()
    await dialog.getByText(/It takes up to/).waitFor()
    await dialog.getByRole('button', { name: 'Book', exact: true }).click()
    await dialog.waitFor({ state: 'detached' })
    const { items } = await get<{ items: unknown[] }>(
      world.owner.context(),
      `/v1/bookings?shopId=${world.shop.id}&from=2035-03-05T00:00:00Z&to=2035-03-07T00:00:00Z`,
    )
    expect(items).toMatchObject([
      { repairOrderNumber: number, resourceName: oven.name, bakeProgram: { dwellMinutes: 45 } },
    ])
  })
})
