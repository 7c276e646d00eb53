import type { BrowserContext, Page } from 'playwright-core'
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
import { addBay, makeJob, makeWorld, openAsNewcomer, startBond, type World } from './world.ts'

/** Typed into the field at the head of the screen where there is room for one, else into the camera's dialog. */
async function scan(page: Page, code: string): Promise<void> {
  const field = page.getByRole('textbox', { name: 'Scan or type a label' })
  if (!(await field.isVisible())) {
    await page.getByRole('button', { name: 'Scan a label with the camera' }).click()
    await page.getByRole('dialog').getByRole('textbox').fill(code)
    await page.getByRole('dialog').getByRole('textbox').press('Enter')
    return
  }
  await field.fill(code)
  await field.press('Enter')
}

/** Publishes a plan of a shop that works day and night. */
async function publishPlan(context: BrowserContext, shopId: string): Promise<void> {
  const under = `/v1/shops/${shopId}`
  await post(context, `${under}/resources`, { kind: 'oven', name: 'Test oven' })
  await post(context, `${under}/resources`, { kind: 'clampSet', name: 'Test clamps', capacity: 10 })
  const shifts = [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({ weekday, from: '00:00', until: '23:45' }))
  const hours = await context.request.put(`${under}/workingHours`, { data: { shifts } })
  expect(hours.status(), await hours.text()).toBe(200)
  const { id } = await post<{ id: string }>(context, `${under}/plans`, { iterations: 100 })
  const plan = () => get<{ state: string }>(context, `/v1/plans/${id}`)
  await expect.poll(async () => (await plan()).state, { timeout: 30_000 }).toBe('draft')
  await post(context, `/v1/plans/${id}/publication`, {})
}

const openJoint = (page: Page) => page.getByRole('region', { name: 'Joint to close' })

describeInBrowser("a technician's own work, on a phone", () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('is where a technician comes in, with what the plan has for that person', async () => {
    const page = await openAs('technician', { size: PHONE })
    await visit(page, '/')
    await page.getByRole('heading', { name: 'My work', level: 1 }).waitFor()
    const bar = page.getByRole('navigation', { name: 'Main, phone' })
    expect(await bar.getByRole('link', { name: 'My work' }).getAttribute('aria-current')).toBe('page')
    const rows = page.getByRole('main').getByRole('listitem')
    await rows.first().waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    // What needs attention in the shops is one step away.
    await visit(page, '/overview')
    expect(await isShown(page.getByRole('list', { name: 'What needs attention' }))).toBe(true)
  })

  it('says to who is no technician of a plan what to do about it', async () => {
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    await visit(page, '/')
    await page.getByText('The plan does not know you as a technician.').waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
  })

  it('begins and finishes what is planned by one tap each, and says what waits', async () => {
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    const { id: personId } = (await (await page.context().request.get('/v1/me')).json()) as { id: string }
    const { order, joint, vehicle } = await makeJob(world, await addBay(world))
    const owner = world.owner.context()
    const technician = await post<{ id: string }>(owner, `/v1/shops/${world.shop.id}/resources`, {
      kind: 'technician',
      name: `Invented hand ${joint.id.slice(0, 8)}`,
      personId,
      skills: ['body', 'structural', 'paint', 'fitting'],
    })
    await post(owner, `/v1/repairOrders/${order.id}/operations`, { template: 'doorSkin', jointId: joint.id })
    const { items } = (await (await owner.request.get(`/v1/repairOrders/${order.id}/operations`)).json()) as {
      items: { id: string; name: string; kind: string }[]
    }
    const [first, second] = items as [(typeof items)[0], (typeof items)[0]]
    await visit(page, '/')
    await page.getByText('Nothing is planned for you in the next two weeks.').waitFor()
    // Somebody else says at the board who is on it: it is on the screen by itself.
    await post(owner, `/v1/operations/${first.id}/start`, { technicianIds: [technician.id] })
    const row = page.getByRole('listitem', { name: `${first.name}, ${vehicle}` })
    await row.getByText('Under way').waitFor()
    await row.getByRole('button', { name: `Finished: ${first.name}, ${vehicle}` }).click()
    await row.waitFor({ state: 'detached' })
    await post(owner, `/v1/operations/${second.id}/start`, { technicianIds: [technician.id] })
    await page.getByRole('listitem', { name: `${second.name}, ${vehicle}` }).waitFor()
    expect(await sidewaysPx(page)).toBe(0)
  })
})

describeInBrowser('a joint of mine that is open', () => {
  it('stands over every other screen with its clock, and is closed from there', async () => {
    const world = await makeWorld()
    const page = await openAsNewcomer(world, 'owner', { size: PHONE })
    const { order, joint, vehicle } = await makeJob(world)
    await startBond({ ...world, owner: page }, joint)
    await visit(page, '/stock')
    const bar = openJoint(page)
    await bar.getByText(vehicle).waitFor()
    const clock = bar.getByRole('timer')
    const early = await clock.innerText()
    await expect.poll(() => clock.innerText(), { timeout: 5_000 }).not.toBe(early)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    // Everything that it covers can be scrolled into sight.
    await visit(page, '/bays')
    await bar.getByText(vehicle).waitFor()
    await expect
      .poll(() =>
        page.evaluate<number>(`(() => {
          window.scrollTo(0, document.documentElement.scrollHeight)
          const main = document.querySelector('main')
          const padding = parseFloat(getComputedStyle(main).paddingBottom)
          const over = document.querySelector('[data-open-joint]').getBoundingClientRect().top
          return main.getBoundingClientRect().bottom - padding - over
        })()`),
      )
      .toBeLessThanOrEqual(1)
    // The foot of the form of another bond stands above it: the press for adhesive that is on is never behind a clock.
    const next = await makeJob(world, world.otherBay)
    await visit(page, `/jobs/${next.order.id}/joints/${next.joint.id}/bond`)
    await bar.getByText(vehicle).waitFor()
    const check = page.getByRole('button', { name: 'Check', exact: true })
    await check.waitFor()
    await expect
      .poll(() =>
        page.evaluate<boolean>(`(() => {
          const button = [...document.querySelectorAll('main button')].find((each) => each.textContent === 'Check')
          const { left, top, width, height } = button.getBoundingClientRect()
          return button.contains(document.elementFromPoint(left + width / 2, top + height / 2))
        })()`),
      )
      .toBe(true)
    // On the job's own page it stands already.
    await visit(page, `/jobs/${order.id}`)
    await page.getByText('Close and clamp the joint within').waitFor()
    expect(await openJoint(page).count()).toBe(0)
    expect(await page.getByRole('button', { name: 'Closed and clamped' }).count()).toBe(1)
    await visit(page, '/alerts')
    await openJoint(page).getByRole('button', { name: 'Closed and clamped' }).click()
    // One press over another screen may be a slip of the thumb: it clamps nothing.
    const again = openJoint(page).getByRole('button', {
      name: 'Press again: Outer sill, left is closed and clamped',
    })
    await again.waitFor()
    const { items } = await get<{ items: { state: string; repairOrderId: string }[] }>(
      page.context(),
      `/v1/bonds?shopId=${world.shop.id}`,
    )
    expect(items.find(({ repairOrderId }) => repairOrderId === order.id)?.state).toBe('applied')
    await again.click()
    await openJoint(page).waitFor({ state: 'detached' })
    await visit(page, '/my-work')
    await page.getByText(/^Curing: sure by/).waitFor()
  })
})

describeInBrowser('a cartridge in the hand', () => {
  it('goes from a scan straight into the form of the bond that is planned, and what does not fit is told', async () => {
    const world = await makeWorld()
    const other = await makeWorld()
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    const { id: personId } = (await (await page.context().request.get('/v1/me')).json()) as { id: string }
    const owner = world.owner.context()
    const { order, joint, vehicle } = await makeJob(world)
    await post(owner, `/v1/shops/${world.shop.id}/resources`, {
      kind: 'technician',
      name: 'Invented hand',
      personId,
      skills: ['body', 'structural', 'paint', 'fitting'],
    })
    await post(owner, `/v1/repairOrders/${order.id}/operations`, { template: 'doorSkin', jointId: joint.id })
    await publishPlan(owner, world.shop.id)
    const [first, second] = world.cartridges as unknown as readonly [{ code: string }, { code: string }]
    await visit(page, '/')
    await page
      .getByRole('listitem', { name: new RegExp(vehicle) })
      .first()
      .waitFor()
    await scan(page, first.code)
    await page.getByRole('heading', { name: `Cartridge ${first.code}` }).waitFor()
    await page
      .getByRole('region', { name: 'Use it for' })
      .getByRole('link', { name: `Outer sill, left, ${vehicle}` })
      .click()
    const chosen = (code: string) => page.getByRole('checkbox', { name: new RegExp(code) })
    await page.getByText(`Scanned: ${first.code}`).waitFor()
    await expect.poll(() => chosen(first.code).isChecked()).toBe(true)
    // One dispenser takes it: it is chosen too.
    await expect
      .poll(() => page.getByLabel('Dispenser', { exact: true }).inputValue())
      .toBe(world.dispenser.id)
    await scan(page, second.code)
    await page.getByText(`Scanned: ${second.code}`).waitFor()
    expect([await chosen(first.code).isChecked(), await chosen(second.code).isChecked()]).toEqual([
      true,
      true,
    ])
    // Taken out by hand, and scanned once more: it is in again.
    await chosen(second.code).uncheck()
    await scan(page, second.code)
    await expect.poll(() => chosen(second.code).isChecked()).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    // Of another product, for somebody who may see it.
    await visit(world.owner, `/jobs/${order.id}/joints/${joint.id}/bond?cartridge=${other.cartridges[0]!.id}`)
    await world.owner
      .getByText(`${other.cartridges[0]!.code} is ${other.product.name}: this joint takes`)
      .waitFor()
    expect(await world.owner.getByRole('checkbox', { name: /mL/ }).count()).toBeGreaterThan(0)
    expect(await world.owner.getByRole('checkbox', { name: /mL/, checked: true }).count()).toBe(0)
  })
})

describeInBrowser('two joints of mine that are open', () => {
  it('are closed one after the other from the bar, each at its own instant', async () => {
    const world = await makeWorld()
    const page = await openAsNewcomer(world, 'owner')
    const jobs = [await makeJob(world), await makeJob(world, await addBay(world))] as const
    const ids: string[] = []
    for (const { joint } of jobs) ids.push((await startBond({ ...world, owner: page }, joint)).id)
    // On the page of one, the other's clock is there and its button is not: a glove would find the wrong one.
    await visit(page, `/jobs/${jobs[0].order.id}`)
    await openJoint(page).getByText(jobs[1].vehicle).waitFor()
    await page.getByRole('button', { name: 'Closed and clamped' }).waitFor()
    expect(await openJoint(page).getByRole('button').count()).toBe(0)
    await visit(page, '/alerts')
    const bar = openJoint(page)
    await bar.getByText(jobs[0].vehicle).waitFor()
    await bar.getByRole('button', { name: 'Closed and clamped' }).click()
    await bar.getByRole('button', { name: /^Press again/ }).click()
    await bar.getByText(jobs[1].vehicle).waitFor()
    await page.waitForTimeout(2_000)
    await bar.getByRole('button', { name: 'Closed and clamped' }).click()
    await bar.getByRole('button', { name: /^Press again/ }).click()
    await bar.waitFor({ state: 'detached' })
    const clampedMs: number[] = []
    for (const id of ids)
      clampedMs.push(
        Date.parse((await get<{ clampedAt: string }>(page.context(), `/v1/bonds/${id}`)).clampedAt),
      )
    expect(clampedMs[1]! - clampedMs[0]!).toBeGreaterThanOrEqual(1_900)
  })
})
