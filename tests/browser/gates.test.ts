import { beforeAll, expect, it } from 'vitest'
import { accessibilityFaults, describeInBrowser, isShown, openAs, PHONE, post, visit } from './browser.ts'
import { addBay, makeJob, makeWorld, openAsNewcomer, QUICK, startBond, type World } from './world.ts'

const ALL_THE_SAME = ['not-qualified', 'no-instrument'].map((code) => ({ code, reason: 'Seen by the owner' }))

describeInBrowser('a gate that somebody entitled may override', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('asks for a written reason before a joint of class S2 is clamped by somebody not qualified', async () => {
    const { order, joint } = await makeJob(world, world.bay, 'S2')
    await startBond(world, joint, ALL_THE_SAME)
    const page = await openAsNewcomer(world, 'owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('main').getByRole('button', { name: 'Closed and clamped' }).click()
    const dialog = page.getByRole('dialog', { name: 'Clamping of Outer sill, left refused' })
    expect(await isShown(dialog.getByText(/has no qualification on record for a joint of class S2/))).toBe(
      true,
    )
    expect(await accessibilityFaults(page)).toEqual([])
    let sent = 0
    page.on('request', (request) => (sent += request.url().endsWith('/clamping') ? 1 : 0))
    await dialog.getByRole('button', { name: 'Record it anyway' }).click()
    // Nothing was written, so nothing is sent: the first of them is the one with the reason.
    await dialog.getByLabel('Override reason').and(page.locator(':invalid')).waitFor()
    expect(sent).toBe(0)
    await dialog.getByLabel('Override reason').fill('Clamped under my eyes')
    await dialog.getByRole('button', { name: 'Record it anyway' }).click()
    await dialog.waitFor({ state: 'detached' })
    expect(await isShown(page.getByText(/Clamped under my eyes/))).toBe(true)
    expect(await page.getByRole('main').getByRole('button', { name: 'Closed and clamped' }).count()).toBe(0)
  })

  it('tells a technician who may, and offers no field', async () => {
    const { order, joint } = await makeJob(world, await addBay(world), 'S2')
    await startBond(world, joint, ALL_THE_SAME)
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('main').getByRole('button', { name: 'Closed and clamped' }).click()
    const dialog = page.getByRole('dialog')
    expect(await isShown(dialog.getByText('An owner may go on with a written reason'))).toBe(true)
    expect(await dialog.getByRole('textbox').count()).toBe(0)
    expect(await dialog.getByRole('button', { name: 'Record it anyway' }).count()).toBe(0)
  })
})

describeInBrowser('the form of a bond', () => {
  it('comes back over a reload and a look elsewhere, and not once the bond is started', async () => {
    const world = await makeWorld()
    const { order, joint } = await makeJob(world)
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    const address = `/jobs/${order.id}/joints/${joint.id}/bond`
    await visit(page, address)
    await page.getByRole('checkbox', { name: new RegExp(world.cartridges[0]!.code) }).check()
    await page.getByLabel('Dispenser', { exact: true }).selectOption({ label: 'Test gun' })
    await page.getByLabel('Metal at the joint').fill('73')
    await page.getByLabel('Air', { exact: true }).fill('72')
    await page.getByLabel('Relative humidity').fill('45')
    for (const item of await page.getByRole('group', { name: '2. Prepare' }).getByRole('checkbox').all())
      await item.check()
    for (const again of [() => page.reload(), () => visit(page, address)]) {
      await again()
      await page.getByText(/^As you left it at/).waitFor()
      expect(await page.getByLabel('Metal at the joint').inputValue()).toMatch(/^73\b/)
      expect(await page.getByLabel('Air', { exact: true }).inputValue()).toMatch(/^72\b/)
      expect(await page.getByRole('checkbox', { checked: true }).count()).toBeGreaterThan(1)
    }
    await page.getByRole('button', { name: 'Adhesive is on' }).click()
    await page.waitForURL(`**/jobs/${order.id}`)
    await visit(page, address)
    await page.getByLabel('Metal at the joint').waitFor()
    expect(await page.getByLabel('Metal at the joint').inputValue()).toBe('')
    expect(await page.getByText(/^As you left it at/).count()).toBe(0)
  })
})

describeInBrowser('a cured joint of class S1 without its readings', () => {
  it('is named as that, and released or moved only with a written reason', async () => {
    const world = await makeWorld(QUICK)
    const { order, joint } = await makeJob(world, world.bay, 'S1')
    const bond = await startBond(world, joint, ALL_THE_SAME)
    await post(world.owner.context(), `/v1/bonds/${bond.id}/clamping`, {
      overrides: ALL_THE_SAME.slice(0, 1),
    })
    const page = await openAs('owner')
    await visit(page, `/jobs/${order.id}`)
    const move = page.getByRole('region', { name: 'May I move the vehicle?' })
    await move.getByText('No: cured, but something is missing').waitFor({ timeout: 60_000 })
    expect(await isShown(move.getByText(/0 of 2 panel readings by an instrument in calibration/))).toBe(true)

    await move.getByRole('button', { name: 'Move the vehicle out' }).click()
    const stays = page.getByRole('dialog', { name: 'The vehicle stays' })
    expect(await isShown(stays.getByText(/0 of 2 panel readings/))).toBe(true)
    await stays.getByRole('button', { name: 'Back' }).click()

    await page.getByRole('button', { name: 'Take the clamps off' }).click()
    const dialog = page.getByRole('dialog', { name: 'Release of Outer sill, left refused' })
    await dialog.getByLabel('Override reason').fill('Both probes are at calibration')
    await dialog.getByRole('button', { name: 'Take them off anyway' }).click()
    await dialog.waitFor({ state: 'detached' })
    await page.getByText(/^Clamps off/).waitFor()
    expect(await isShown(page.getByText(/Both probes are at calibration/))).toBe(true)
  })
})
