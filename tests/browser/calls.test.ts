import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { accessibilityFaults, describeInBrowser, isShown, PHONE, sidewaysPx, visit } from './browser.ts'
import { makeJob, makeWorld, openAsNewcomer, QUICK, startBond } from './world.ts'

/** A phone that writes down what would be felt and heard, and whether its screen is kept lit. */
async function listen(page: Page): Promise<void> {
  await page.addInitScript(`
    window.felt = []
    window.lit = 0
    navigator.vibrate = (pattern) => window.felt.push(pattern.length)
    Object.defineProperty(navigator, 'wakeLock', { value: {
      request: async () => { window.lit += 1; return { release: async () => { window.lit -= 1 } } },
    } })
    const start = OscillatorNode.prototype.start
    window.heard = 0
    OscillatorNode.prototype.start = function (...at) { window.heard += 1; return start.apply(this, at) }`)
}

const told = (page: Page, what: string) => page.evaluate<unknown>(`window.${what}`)

describeInBrowser('what time does to a bond of mine', () => {
  it('is called out on whatever screen: the end of the work time, and that its time has come', async () => {
    const world = await makeWorld(QUICK)
    const page = await openAsNewcomer(world, 'owner', { size: PHONE })
    await listen(page)
    const { order, joint, vehicle } = await makeJob(world)
    await visit(page, '/stock')
    await startBond({ ...world, owner: page }, joint)
    const bar = page.getByRole('region', { name: 'Joint to close' })
    await bar.getByText(vehicle).waitFor()
    await expect.poll(() => told(page, 'lit')).toBe(1)
    // Browsers let nothing sound before somebody has touched the page.
    await page.mouse.click(5, 200)
    await page
      .getByRole('alert')
      .filter({ hasText: 'Outer sill, left: the work time is over.' })
      .waitFor({ state: 'attached', timeout: 60_000 })
    expect(await told(page, 'felt')).toEqual([9])
    expect(await told(page, 'heard')).toBe(5)
    await bar.getByRole('button', { name: 'Closed and clamped' }).click()
    await bar.getByRole('button', { name: /^Press again/ }).click()
    await bar.waitFor({ state: 'detached' })
    await expect.poll(() => told(page, 'lit')).toBe(0)
    const come = page.getByRole('region', { name: 'The time of a joint has come' })
    await come.getByText(vehicle).waitFor({ timeout: 120_000 })
    expect(await told(page, 'felt')).toEqual([9, 3])
    expect(await come.getByText(/may be moved/i).count()).toBe(0)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    // Where it leads the service is asked; there the call is not over the answer.
    await come.getByRole('link', { name: 'May I move it?' }).click()
    await page.waitForURL(`**/jobs/${order.id}**`)
    await come.waitFor({ state: 'detached' })
    expect(await isShown(page.getByRole('heading', { level: 1 }))).toBe(true)
  })

  it('is called without a sound on a device whose calls are off, and that is remembered', async () => {
    const world = await makeWorld(QUICK)
    const page = await openAsNewcomer(world, 'owner')
    await listen(page)
    const { joint } = await makeJob(world)
    await visit(page, '/stock')
    const account = page.getByRole('button', { name: 'Invented', exact: true })
    await account.click()
    await page.getByRole('menuitem', { name: 'Calls on this device: on' }).click()
    await page.getByRole('menuitem', { name: 'Calls on this device: off' }).waitFor()
    await visit(page, '/alerts')
    await startBond({ ...world, owner: page }, joint)
    await page
      .getByRole('alert')
      .filter({ hasText: 'the work time is over' })
      .waitFor({ state: 'attached', timeout: 60_000 })
    expect([await told(page, 'felt'), await told(page, 'heard')]).toEqual([[], 0])
  })
})
