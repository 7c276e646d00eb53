import { beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  get,
  openAs,
  PHONE,
  post,
  sidewaysPx,
  visit,
} from './browser.ts'
import { addBay, makeJob, makeWorld, openAsNewcomer, QUICK, startBond, type World } from './world.ts'

interface Order {
  readonly joints: readonly {
    readonly state: string
    readonly bonds: readonly {
      readonly id: string
      readonly state: string
      readonly slidAt: string | null
      readonly abandonedAt: string
      readonly abandonReason: string
      readonly wasLifted: boolean
      readonly incidents: readonly { readonly kind: string; readonly reason: string }[]
    }[]
  }[]
}

describeInBrowser('an open joint whose panels move', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })
  const jointOf = async (orderId: string) =>
    (await get<Order>(world.owner.context(), `/v1/repairOrders/${orderId}`)).joints[0]!

  it('is slid by one tap, before the clamps and under them, and that is written down', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    await startBond(world, joint)
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('button', { name: 'Slid', exact: true }).click()
    await page.getByText(/^Slid into place /).waitFor()
    const first = (await jointOf(order.id)).bonds[0]!.slidAt
    await page.getByRole('main').getByRole('button', { name: 'Closed and clamped' }).click()
    await page.getByRole('button', { name: 'Clamps are off already' }).waitFor()
    await page.getByRole('button', { name: 'Slid', exact: true }).click()
    await expect
      .poll(async () => (await jointOf(order.id)).bonds[0]!.slidAt, { timeout: 10_000 })
      .not.toBe(first)
    expect((await jointOf(order.id)).bonds[0]!.incidents).toEqual([])
  })

  it('is lifted by its own button: reasons at hand, what to scrape, and on with the same cartridge', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    await startBond(world, joint)
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const before = Date.now()
    await page.getByRole('button', { name: 'Lifted…' }).click()
    const pressed = Date.now()
    const dialog = page.getByRole('dialog')
    const record = dialog.getByRole('button', { name: 'Record that it was lifted' })
    expect(await record.isDisabled()).toBe(true)
    // A chip pressed twice is taken back, and says nothing.
    const slipped = dialog.getByRole('button', { name: 'A clamp slipped' })
    await slipped.click()
    await slipped.click()
    expect(await record.isDisabled()).toBe(true)
    await slipped.click()
    await dialog.getByRole('button', { name: 'The bead had gaps' }).click()
    await dialog.getByLabel('In more words').fill('At the front corner')
    expect(await accessibilityFaults(page)).toEqual([])
    await record.click()
    await page.getByRole('dialog', { name: 'Scrape now, and start again' }).waitFor()
    await dialog.getByText(/Scrape all adhesive off both faces/).waitFor()
    await dialog.getByText(/may still be used/).waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    const { state, bonds } = await jointOf(order.id)
    expect(state).toBe('lifted')
    expect(bonds[0]).toMatchObject({
      state: 'abandoned',
      wasLifted: true,
      abandonReason: 'A clamp slipped; The bead had gaps; At the front corner',
    })
    // Of the press that said so, and not of the end of the writing.
    const atMs = Date.parse(bonds[0]!.abandonedAt)
    expect(atMs).toBeGreaterThanOrEqual(before - 1_500)
    expect(atMs).toBeLessThanOrEqual(pressed + 1_500)
    await dialog.getByRole('link', { name: /^Start again with / }).click()
    await page.getByText(/^Scanned: /).waitFor()
    await expect.poll(() => page.getByRole('checkbox', { checked: true }).count()).toBe(1)
  })

  it('offers another cartridge where the same may not be used any more', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const { cartridgeId } = await startBond(world, joint).then(({ id }) =>
      get<{ cartridgeId: string }>(world.owner.context(), `/v1/bonds/${id}`),
    )
    await post(world.owner.context(), `/v1/cartridges/${cartridgeId}/discard`, {
      reason: 'Nozzle is blocked',
    })
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('button', { name: 'Lifted…' }).click()
    await page.getByRole('button', { name: 'The panel did not fit' }).click()
    await page.getByRole('button', { name: 'Record that it was lifted' }).click()
    await page.getByText(/It was discarded/).waitFor()
    await page.getByRole('link', { name: 'Start again', exact: true }).waitFor()
  })
})

describeInBrowser('a joint whose work time is short', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld(QUICK)
  })
  const clamped = async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const bond = await startBond(world, joint)
    await post(world.owner.context(), `/v1/bonds/${bond.id}/clamping`, {})
    return { order, bond }
  }

  it('is not slid after it: a press leaves nothing, what happened is an incident', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    await startBond(world, joint)
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('main').getByText('The work time is over').waitFor({ timeout: 30_000 })
    const slid = page.getByRole('button', { name: 'Slid', exact: true })
    await slid.click()
    const dialog = page.getByRole('dialog', { name: 'Moved after the work time' })
    await dialog.getByRole('button', { name: 'Back' }).click()
    const bondOf = async () =>
      (await get<Order>(page.context(), `/v1/repairOrders/${order.id}`)).joints[0]!.bonds[0]!
    expect((await bondOf()).incidents).toEqual([])
    await slid.click()
    await dialog.getByLabel('What happened, and why?').fill('Pushed straight by hand')
    await dialog.getByRole('button', { name: 'Record that it was moved' }).click()
    await page.getByText('Moved after work time', { exact: true }).first().waitFor()
    expect((await bondOf()).incidents).toMatchObject([
      { kind: 'movedAfterWorkTime', reason: 'Pushed straight by hand' },
    ])
    await page
      .getByRole('region', { name: 'May I move the vehicle?' })
      .getByText('No: a joint must be inspected or made again first')
      .waitFor()
  })

  it('says once it is released what to do and what not, and who says so, on the job and in its record', async () => {
    const { order, bond } = await clamped()
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const card = page.getByRole('region', { name: 'The clamps are off: do and don’t' })
    expect(await card.count()).toBe(0)
    await page.getByRole('button', { name: 'Take the clamps off' }).click({ timeout: 60_000 })
    for (const at of [`/jobs/${order.id}`, `/bonds/${bond.id}/record`]) {
      if (!page.url().endsWith(at)) await visit(page, at)
      await card.getByText(/^Weld or rivet/).waitFor()
      const said = await card.getByRole('listitem').allInnerTexts()
      const sourceOf = (start: string) =>
        said
          .find((item) => item.startsWith(start))
          ?.split('\n')
          .at(-1)
      expect(sourceOf('Weld or rivet')).toBe('By the vehicle maker’s procedure')
      expect(sourceOf('Keep Invented acrylic')).toBe('By the data sheet')
      expect(sourceOf('Soak the joint')).toBe('Common practice, no source')
      expect(sourceOf('Fill over adhesive')).toBe('Common practice, no source')
      // Everything says by whom it is said.
      expect(said.filter((item) => !/(procedure|data sheet|no source)$/.test(item))).toEqual([])
      expect(await card.getByText(/between .40.°F and 248.°F/).count()).toBe(1)
      expect(await accessibilityFaults(page)).toEqual([])
    }
  })

  it('takes back its yes when somebody says that it came apart after the release', async () => {
    const { order } = await clamped()
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('button', { name: 'Take the clamps off' }).click({ timeout: 60_000 })
    const move = page.getByRole('region', { name: 'May I move the vehicle?' })
    await move.getByText(/^Yes/).waitFor()
    await page.getByRole('button', { name: / moved or came apart…$/ }).click()
    const dialog = page.getByRole('dialog', { name: 'Moved after the work time' })
    await dialog.getByLabel('What happened, and why?').fill('Came away when it was pushed out')
    await dialog.getByRole('button', { name: 'Record that it was moved' }).click()
    await move.getByText('No: a joint must be inspected or made again first').waitFor()
    await page
      .getByRole('region', { name: 'The clamps are off: do and don’t' })
      .waitFor({ state: 'detached' })
  })

  it('says nothing of the kind in the record of a joint whose clamps came off early', async () => {
    const { order, bond } = await clamped()
    await post(world.owner.context(), `/v1/bonds/${bond.id}/release`, {
      alreadyHappened: true,
      reason: 'Rolled out before anybody looked',
    })
    const page = await openAs('owner', { size: PHONE })
    const card = page.getByRole('region', { name: 'The clamps are off: do and don’t' })
    for (const at of [`/bonds/${bond.id}/record`, `/jobs/${order.id}`]) {
      await visit(page, at)
      // By then whatever comes after the page has come.
      await page.getByRole('button', { name: 'Add note' }).waitFor()
      await page.waitForTimeout(1_000)
      expect(await card.count()).toBe(0)
    }
  })
})
