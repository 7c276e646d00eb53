import { beforeAll, expect, it } from 'vitest'
import { describeInBrowser, openAs, PHONE, post, visit } from './browser.ts'
import { addBay, makeJob, makeWorld, startBond, type World } from './world.ts'

describeInBrowser('a yes on the screen', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })
  const QUESTION = 'May I move the vehicle?'

  it('is of now, or is being asked for: nobody answers, and the minute is over', async () => {
    const { order } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await page.clock.install()
    await visit(page, `/jobs/${order.id}`)
    const move = page.getByRole('region', { name: QUESTION })
    await move.getByText('Yes, it may be moved').waitFor()
    await move.getByText(/^As of /).waitFor()
    await page.route('**/v1/**', (route) => route.abort())
    await page.clock.fastForward(90_000)
    await move.getByText('Asking the service…').waitFor()
    expect(await move.getByText('Yes, it may be moved').count()).toBe(0)
    expect(await move.getByRole('button', { name: 'Move the vehicle out' }).count()).toBe(0)
  })

  it('is never the phone’s own: a joint that cures while nobody answers does not turn ready on the screen', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const bond = await startBond(world, joint)
    await post(world.owner.context(), `/v1/bonds/${bond.id}/clamping`, {})
    const page = await openAs('owner', { size: PHONE })
    await page.clock.install()
    await visit(page, `/jobs/${order.id}`)
    const card = page.getByRole('region', { name: joint.name })
    await card.getByText(/^Curing: sure by/).waitFor()
    await page.route('**/v1/**', (route) => route.abort())
    await page.clock.fastForward(30 * 3_600_000)
    await card.getByText(/^Asking the service how far it has cured/).waitFor()
    expect(await card.getByText(/Handling strength reached|100\s% sure/).count()).toBe(0)
    expect(await card.getByRole('button', { name: 'Take the clamps off' }).count()).toBe(0)
  })

  it('is gone from the moment something else is known to have happened, until the new answer is here', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const move = page.getByRole('region', { name: QUESTION })
    await move.getByText('Yes, it may be moved').waitFor()
    // Somebody else puts adhesive on: the live event comes, the answer to the question does not.
    await page.route(`**/v1/repairOrders/${order.id}`, () => undefined)
    await startBond(world, joint)
    await move.getByText('Asking the service…').waitFor()
    await page.unroute(`**/v1/repairOrders/${order.id}`)
    await page.reload()
    await move.getByText(/^No/).first().waitFor()
  })

  it('does not stand beside an act of one’s own that has not been answered', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    await startBond(world, joint)
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const sent: { at: string; key: string | undefined }[] = []
    let isLost = true
    await page.route('**/clamping', async (route) => {
      const request = route.request()
      sent.push({ at: request.postDataJSON().at, key: request.headers()['idempotency-key'] })
      if (!isLost) return route.continue()
      // It arrives, and its answer is lost.
      await route.fetch()
      return route.abort()
    })
    const main = page.getByRole('main')
    await main.getByRole('button', { name: 'Closed and clamped' }).click()
    await main.getByText(/^Pressed at .*waiting to be sent/).waitFor()
    // The live event may have told of it by now: the phone does not know that it was this press.
    const move = page.getByRole('region', { name: QUESTION })
    expect(await move.getByText(/^Yes/).count()).toBe(0)
    isLost = false
    await main.getByText(/^Sent /).waitFor()
    expect(sent.length).toBeGreaterThan(1)
    for (const again of sent.slice(1)) expect(again).toEqual(sent[0])
  })

  it('counts by the service’s time on a phone whose clock is an hour slow, and rounds what is spoken down', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await page.clock.install({ time: Date.now() - 3_600_000 })
    await startBond(world, joint)
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('main').getByText('Close and clamp the joint within').waitFor()
    const text = await page.getByRole('main').getByRole('timer').first().innerText()
    const [minutes] = /(\d+):\d\d/.exec(text)!.slice(1).map(Number)
    // About forty minutes by the sheet, and no hour more.
    expect(minutes).toBeLessThan(50)
    const spoken = Number(/(\d+) minutes?/.exec(text)![1])
    expect(spoken).toBeLessThanOrEqual(minutes!)
    await post(world.owner.context(), `/v1/repairOrders/${order.id}/move`, {
      alreadyHappened: true,
      reason: 'The test is over',
    })
  })
})
