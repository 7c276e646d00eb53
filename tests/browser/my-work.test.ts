import type { Page } from 'playwright-core'
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
} from './browser.ts'
import { addBay, makeJob, makeWorld, openAsNewcomer, startBond, type World } from './world.ts'

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
    await page.getByText('Nothing is planned for you in the next two days.').waitFor()
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
    // On the job's own page it stands already.
    await visit(page, `/jobs/${order.id}`)
    await page.getByText('Close and clamp the joint within').waitFor()
    expect(await openJoint(page).count()).toBe(0)
    expect(await page.getByRole('button', { name: 'Closed and clamped' }).count()).toBe(1)
    await visit(page, '/alerts')
    await openJoint(page).getByRole('button', { name: 'Closed and clamped' }).click()
    await openJoint(page).waitFor({ state: 'detached' })
    await visit(page, '/my-work')
    await page.getByText(/^Curing: sure by/).waitFor()
  })
})
