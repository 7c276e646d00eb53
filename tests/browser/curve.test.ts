import { beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  isShown,
  openAs,
  PHONE,
  post,
  sidewaysPx,
  visit,
  withoutErrors,
} from './browser.ts'
import { addBay, makeJob, makeWorld, startBond, type World } from './world.ts'

describeInBrowser('the curve of a bond', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('is drawn on a desk with its events and ready times, in figures beside it, and anew when something happens', async () => {
    const { order, joint } = await makeJob(world)
    const bond = await startBond(world, joint)
    const page = await openAs('owner')
    await withoutErrors(page, () => visit(page, `/jobs/${order.id}`))
    const figure = page.locator('figure')
    await figure.locator('[data-line]').first().waitFor()
    // The metal, and three lines of progress.
    expect(await figure.locator('[data-line]').count()).toBe(4)
    expect(await isShown(figure.getByText('Applied', { exact: true }))).toBe(true)
    expect(await figure.getByText('Clamped', { exact: true }).count()).toBe(0)

    const table = page.getByRole('table', { name: 'Curve of Outer sill, left in figures' })
    for (const line of ['earliest', 'expected', 'careful']) {
      const row = table.getByRole('row', { name: `Handling strength, ${line}` })
      expect(await isShown(row.getByText(/^100\s%$/).first())).toBe(true)
    }
    // The test shop's degrees, on the panel of 23 degC.
    expect(await isShown(table.getByText(/^73\.4\s°F/).first())).toBe(true)

    // From elsewhere: nobody touches this page.
    await post(world.owner.context(), `/v1/bonds/${bond.id}/clamping`, {})
    await figure.getByText('Clamped', { exact: true }).waitFor()
    expect(await isShown(table.getByText(/^Clamped by/))).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
  })

  it('is opened by whoever wants it on a phone, and fits', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    await startBond(world, joint)
    const page = await openAs('viewer', { size: PHONE, scheme: 'dark' })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('main').getByText('Close and clamp the joint within').waitFor()
    expect(await page.locator('figure').count()).toBe(0)
    await page.getByText('Temperature and cure, drawn').click()
    await page.locator('figure [data-line]').first().waitFor()
    expect(await sidewaysPx(page)).toBe(0)
    expect(await accessibilityFaults(page)).toEqual([])
  })
})
