import { expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  isShown,
  openAs,
  PHONE,
  sidewaysPx,
  visit,
} from './browser.ts'
import { makeJob, makeWorld, startBond } from './world.ts'

describeInBrowser('the oven check', () => {
  it('names each joint that is short of handling strength, and draws the window', async () => {
    const world = await makeWorld()
    const { order, joint } = await makeJob(world)
    await startBond(world, joint.id)
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByText('May it be baked? Check a program of the oven').click()
    await page.getByRole('button', { name: 'Check the bake' }).click()
    const answer = page.getByRole('region', { name: 'May this vehicle be baked then?' })
    await answer.getByText('No', { exact: true }).waitFor()
    expect(await isShown(answer.getByRole('listitem').filter({ hasText: 'Outer sill, left' }).first())).toBe(
      true,
    )
    await page.locator('figure .recharts-line').first().waitFor()
    expect(await page.locator('figure .recharts-line').count()).toBe(2)
    const times = page.getByRole('table', { name: 'Times of the bake' })
    expect(await isShown(times.getByRole('row', { name: /Whole window, to book .*\d+ min/ }))).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
  })
})
