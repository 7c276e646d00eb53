import { expect, it } from 'vitest'
import { describeInBrowser, openAs, post, visit, isShown } from './browser.ts'
import { makeJob, makeWorld, startBond } from './world.ts'

describeInBrowser('the bay board', () => {
  it('shows a new bond by itself, counts its work time, then its cure', async () => {
    const world = await makeWorld()
    const { joint, vehicle } = await makeJob(world)
    const page = await openAs('scheduler')
    await visit(page, `/bays?shop=${world.shop.id}`)
    const bay = page
      .getByRole('listitem')
      .filter({ has: page.getByRole('heading', { name: world.bay.name }) })
    await bay.getByText(vehicle).waitFor()
    await bay.getByText('In work').waitFor()
    await page.getByText('Live', { exact: true }).first().waitFor()

    const bond = await startBond(world, joint)
    await bay.getByText('Joint open').waitFor({ timeout: 4_000 })
    await bay.getByText('to close the joint').waitFor()
    await post(world.owner.context(), `/v1/bonds/${bond.id}/clamping`, {})
    await bay.getByText('Curing', { exact: false }).first().waitFor({ timeout: 4_000 })
    const progress = bay.getByRole('progressbar', { name: 'Cure of Outer sill, left' })
    expect(await progress.getAttribute('aria-valuetext')).toMatch(/percent sure/)
  })

  it('has a wall screen without navigation, and a way back', async () => {
    const page = await openAs('scheduler')
    await visit(page, '/bays')
    await page.getByRole('link', { name: 'Wall screen' }).click()
    await page.getByRole('navigation', { name: 'Main' }).waitFor({ state: 'detached' })
    await page.getByRole('link', { name: 'Leave wall screen' }).click()
    expect(await isShown(page.getByRole('navigation', { name: 'Main' }).first())).toBe(true)
  })

  it('says when the stream is lost, and is live again after a retry', async () => {
    const page = await openAs('scheduler')
    await page.route('**/v1/events', (route) => route.fulfill({ status: 503 }))
    await visit(page, '/bays')
    const top = page.getByRole('region', { name: 'Shop and account' })
    await top.getByText('Connection lost').waitFor()
    await page.unroute('**/v1/events')
    await top.getByRole('button', { name: 'Retry' }).click()
    await top.getByText('Connection lost').waitFor({ state: 'detached' })
    expect(await isShown(page.getByText('Live', { exact: true }))).toBe(true)
  })
})
