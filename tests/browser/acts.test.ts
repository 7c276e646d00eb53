import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  get,
  openPage,
  openProfile,
  PHONE,
  post,
  sidewaysPx,
  visit,
} from './browser.ts'
import { openWay, type Way } from './way-there.ts'
import { addBay, addNewcomer, makeJob, makeWorld, PREPARATION, startBond, type World } from './world.ts'

interface Recorded {
  readonly state: string
  readonly appliedAt: string
  readonly slidAt: string | null
  readonly clampedAt: string | null
  readonly releasedAt: string | null
  readonly abandonedAt: string | null
  readonly measurements: readonly { readonly at: string; readonly temperatureC: number }[]
}

interface Step {
  readonly name: string
  /** Whether the joint is closed before. */
  readonly isClamped?: boolean
  readonly press: (page: Page) => Promise<void>
  /** Its instants in the record: one, once it is there. */
  readonly instants: (bond: Recorded) => readonly string[]
  readonly path: RegExp
}

const HAS_DIALOGS = `['acts-parts', 'reading-dialog', 'told-later-dialog', 'after-parts'].every((part) => performance.getEntriesByType('resource').some(({ name, responseEnd }) => name.includes(part) && responseEnd > 0))`

const main = (page: Page) => page.getByRole('main')
const present = (at: string | null) => (at === null ? [] : [at])

const STEPS: readonly Step[] = [
  {
    name: 'closed and clamped',
    press: (page) => main(page).getByRole('button', { name: 'Closed and clamped' }).click(),
    instants: ({ clampedAt }) => present(clampedAt),
    path: /\/clamping$/,
  },
  {
    name: 'slid',
    press: (page) => page.getByRole('button', { name: 'Slid', exact: true }).click(),
    instants: ({ slidAt }) => present(slidAt),
    path: /\/slides$/,
  },
  {
    name: 'a panel temperature',
    press: async (page) => {
      await page.getByRole('button', { name: 'Add panel temperature' }).click()
      await page.getByLabel('Metal temperature').fill('74')
      await page.getByRole('button', { name: 'Add it' }).click()
    },
    instants: ({ measurements, appliedAt }) =>
      measurements.map(({ at }) => at).filter((at) => at !== appliedAt),
    path: /\/readings$/,
  },
  {
    name: 'lifted',
    press: async (page) => {
      await page.getByRole('button', { name: 'Lifted…' }).click()
      await page.getByRole('button', { name: 'A clamp slipped' }).click()
      await page.getByRole('button', { name: 'Record that it was lifted' }).click()
    },
    instants: ({ abandonedAt }) => present(abandonedAt),
    path: /\/abandonment$/,
  },
  {
    name: 'the clamps that are off already',
    isClamped: true,
    press: async (page) => {
      await page.getByRole('button', { name: 'Clamps are off already' }).click()
      await page.getByLabel('What happened, and why?').fill('The clamp broke')
      await page.getByRole('button', { name: 'Record it' }).click()
    },
    instants: ({ releasedAt }) => present(releasedAt),
    path: /\/release$/,
  },
]

function stepOf(name: string): Step {
  const step = STEPS.find((each) => each.name === name)
  if (step === undefined) throw new Error(`No step is called ${name}`)
  return step
}

describeInBrowser('what is pressed without network', () => {
  let world: World
  let way: Way
  beforeAll(async () => {
    world = await makeWorld()
    way = await openWay()
  })
  afterEach(() => way.mend())
  afterAll(() => way.close())

  const orderOf = (orderId: string) =>
    get<{ joints: { bonds: Recorded[] }[] }>(world.owner.context(), `/v1/repairOrders/${orderId}`)
  const bondOf = async (orderId: string) => (await orderOf(orderId)).joints[0]!.bonds[0]!
  const mark = (page: Page) =>
    page
      .getByRole('region', { name: 'Shop and account' })
      .getByRole('button', { name: /waiting|refused|else/ })

  async function bonded(isClamped = false) {
    const { order, joint } = await makeJob(world, await addBay(world))
    const bond = await startBond(world, joint)
    if (isClamped) await post(world.owner.context(), `/v1/bonds/${bond.id}/clamping`, {})
    return { order, joint, bond }
  }

  async function signedIn(): Promise<Page> {
    const page = await openPage({ size: PHONE, from: way.address })
    await post(page.context(), '/v1/sessions', await addNewcomer(world, 'technician'))
    return page
  }

  /** Opens the job, and waits until what is pressed is kept. */
  async function openJob(page: Page, orderId: string): Promise<void> {
    await visit(page, `/jobs/${orderId}`)
    await page.getByRole('button', { name: 'Add panel temperature' }).waitFor()
    // Its dialogs come a few seconds after the page; without a worker that keeps the shell they are not there before.
    await expect.poll(() => page.evaluate<boolean>(HAS_DIALOGS)).toBe(true)
  }

  /** Presses it, and waits until it is said to be kept. @returns between which instants it was pressed, ms. */
  async function pressed(page: Page, step: Step): Promise<readonly [number, number]> {
    const from = Date.now()
    await step.press(page)
    const until = Date.now()
    await expect.poll(() => mark(page).innerText()).toBe('1 waiting to be sent')
    return [from - 1_500, until + 1_500]
  }

  function expectWithin(instants: readonly string[], [from, until]: readonly [number, number]): void {
    expect(instants).toHaveLength(1)
    const at = Date.parse(instants[0]!)
    expect(at).toBeGreaterThanOrEqual(from)
    expect(at).toBeLessThanOrEqual(until)
  }

  it.each(STEPS)(
    '$name: is in the record once with its instant, though the browser was killed',
    async (step) => {
      const { order } = await bonded(step.isClamped)
      const folder = await mkdtemp(join(tmpdir(), 'clampclock-profile-'))
      const options = { size: PHONE, from: way.address }
      const first: BrowserContext = await openProfile(folder, options)
      await post(first, '/v1/sessions', await addNewcomer(world, 'technician'))
      const page = first.pages()[0]!
      await openJob(page, order.id)
      way.cut()
      const when = await pressed(page, step)
      expect(
        await page.getByRole('region', { name: 'May I move the vehicle?' }).getByText(/^Yes/).count(),
      ).toBe(0)
      await first.close()
      way.mend()
      expect(step.instants(await bondOf(order.id))).toEqual([])

      const again = await openProfile(folder, options)
      // Another page than that of the job: it goes wherever the person is.
      await visit(again.pages()[0]!, '/my-work')
      await expect.poll(async () => step.instants(await bondOf(order.id))).toHaveLength(1)
      expectWithin(step.instants(await bondOf(order.id)), when)
      await mark(again.pages()[0]!).waitFor({ state: 'detached' })
      await again.close()
      await rm(folder, { recursive: true, force: true })
    },
  )

  it.each(STEPS)('$name: is done once though its answer was lost, over a reload', async (step) => {
    const { order } = await bonded(step.isClamped)
    const page = await signedIn()
    await openJob(page, order.id)
    way.loseAnswers()
    const when = await pressed(page, step)
    await expect.poll(async () => step.instants(await bondOf(order.id))).toHaveLength(1)
    await page.reload()
    await mark(page).waitFor()
    const before = way.passed.filter((each) => step.path.test(each)).length
    way.mend()
    await mark(page).waitFor({ state: 'detached' })
    // It was sent again, and did nothing more.
    await expect.poll(() => way.passed.filter((each) => step.path.test(each)).length).toBeGreaterThan(before)
    expectWithin(step.instants(await bondOf(order.id)), when)
    await page.context().close()
  })

  it('goes in the order of the presses, from one tab of two, and both say what became of it', async () => {
    const { order } = await bonded()
    const page = await signedIn()
    await openJob(page, order.id)
    const other = await page.context().newPage()
    await openJob(other, order.id)
    way.cut()
    const before = way.passed.length
    const at = Date.now() - 1_500
    for (const name of ['slid', 'a panel temperature', 'closed and clamped']) await stepOf(name).press(page)
    for (const tab of [page, other])
      await expect.poll(() => mark(tab).innerText()).toBe('3 waiting to be sent')
    const list = other.getByRole('list', { name: /^Pressed at / })
    expect(await list.getByRole('listitem').count()).toBe(3)
    await mark(other).click()
    await other.getByRole('dialog', { name: 'Pressed on this device' }).waitFor()
    expect(await accessibilityFaults(other)).toEqual([])
    expect(await sidewaysPx(other)).toBe(0)
    await other.getByRole('dialog').getByRole('button', { name: 'Close', exact: true }).last().click()
    way.mend()
    await mark(page).waitFor({ state: 'detached' })
    await mark(other).waitFor({ state: 'detached' })
    const sent = way.passed.slice(before).filter((each) => /\/bonds\//.test(each))
    expect(sent.map((each) => each.split('/').at(-1))).toEqual(['slides', 'readings', 'clamping'])
    const bond = await bondOf(order.id)
    const [slid, clamped] = [Date.parse(bond.slidAt!), Date.parse(bond.clampedAt!)]
    expect(slid).toBeGreaterThanOrEqual(at)
    expect(clamped).toBeGreaterThan(slid)
    await page.context().close()
  })

  it('stays as a task where it is refused later, stops what came after it, and is never a yes', async () => {
    const { order, bond } = await bonded()
    const page = await signedIn()
    await openJob(page, order.id)
    way.cut()
    await stepOf('slid').press(page)
    await mark(page).waitFor()
    await stepOf('a panel temperature').press(page)
    await expect.poll(() => mark(page).innerText()).toBe('2 waiting to be sent')
    // Meanwhile somebody else gives the attempt up.
    await post(world.owner.context(), `/v1/bonds/${bond.id}/abandonment`, { reason: 'Wrong panel' })
    way.mend()
    await expect.poll(() => mark(page).innerText()).toBe('2 refused')
    await mark(page).click()
    const dialog = page.getByRole('dialog', { name: 'Pressed on this device' })
    const tasks = dialog.getByRole('region', { name: 'Not recorded: needs attention' })
    await tasks.getByText('Refused, not recorded.').waitFor()
    await tasks.getByText('Not sent: what was pressed before it was refused.').waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    // The service would say the same of the first; the other was never asked.
    expect(await tasks.getByRole('button', { name: /^Send again/ }).count()).toBe(1)
    await tasks.getByRole('button', { name: /^Send again/ }).click()
    await expect.poll(() => tasks.getByText('Refused, not recorded.').count()).toBe(2)
    await tasks.getByRole('button', { name: /^I have seen it: Slid/ }).click()
    await tasks.getByRole('button', { name: /^I have seen it: Panel temperature/ }).click()
    await dialog
      .getByRole('region', { name: 'Last 24 hours' })
      .getByText(/You have seen it/)
      .first()
      .waitFor()
    await dialog.getByRole('button', { name: 'Close', exact: true }).last().click()
    await mark(page).waitFor({ state: 'detached' })
    expect((await bondOf(order.id)).slidAt).toBe(null)
    await page.context().close()
  })

  it('waits for the person who pressed it: another neither sends it nor sees what it was', async () => {
    const { order } = await bonded()
    const page = await openPage({ size: PHONE, from: way.address })
    const mine = await addNewcomer(world, 'technician')
    await post(page.context(), '/v1/sessions', mine)
    await openJob(page, order.id)
    way.cut()
    const when = await pressed(page, stepOf('slid'))
    // Signed out without network, and somebody else in.
    await page.context().clearCookies()
    await page.goto('about:blank')
    way.mend()
    await post(page.context(), '/v1/sessions', await addNewcomer(world, 'technician'))
    await openJob(page, order.id)
    await expect.poll(() => mark(page).innerText()).toBe('1 of somebody else')
    await mark(page).click()
    const dialog = page.getByRole('dialog', { name: 'Pressed on this device' })
    await dialog.getByText(/^1 press of somebody else waits/).waitFor()
    expect(await dialog.getByText('Slid').count()).toBe(0)
    expect(await page.getByRole('list', { name: /^Pressed at / }).count()).toBe(0)
    expect((await bondOf(order.id)).slidAt).toBe(null)
    await page.context().clearCookies()
    await post(page.context(), '/v1/sessions', mine)
    await visit(page, '/my-work')
    await expect.poll(async () => (await bondOf(order.id)).slidAt).not.toBe(null)
    expectWithin(present((await bondOf(order.id)).slidAt), when)
    await page.context().close()
  })

  it('adhesive is on: starts the bond once as of the press, and nothing says yes meanwhile', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await signedIn()
    await visit(page, `/jobs/${order.id}`)
    const move = page.getByRole('region', { name: 'May I move the vehicle?' })
    await move.getByText('Yes, it may be moved').waitFor()
    await page.getByRole('link', { name: 'Start a bond' }).click()
    await page.getByLabel('Metal at the joint').waitFor()
    await page.getByRole('checkbox', { name: new RegExp(world.cartridges[0]!.code) }).check()
    await page.getByLabel('Dispenser', { exact: true }).selectOption({ label: 'Test gun' })
    await page.getByLabel('Metal at the joint').fill('73')
    await page.getByLabel('Air', { exact: true }).fill('72')
    await page.getByLabel('Relative humidity').fill('45')
    for (const item of PREPARATION) await page.getByRole('checkbox', { name: item }).check()
    way.cut()
    const from = Date.now()
    await page.getByRole('button', { name: 'Adhesive is on' }).click()
    const until = Date.now()
    await page
      .getByRole('alert')
      .filter({ hasText: /it is kept on this device/ })
      .waitFor()
    await page.getByRole('link', { name: 'Back to the job' }).click()
    const card = page.getByRole('region', { name: joint.name })
    await card
      .getByRole('list', { name: /^Pressed at / })
      .getByText(/Adhesive is on/)
      .waitFor()
    await move.getByText('Asking the service…').waitFor()
    expect(await move.getByText(/^Yes/).count()).toBe(0)
    expect(await card.getByRole('link', { name: 'Start a bond' }).count()).toBe(0)
    way.mend()
    await card.getByText('Close and clamp the joint within').waitFor()
    await card.getByText(/^Sent /).waitFor()
    const { bonds } = (await orderOf(order.id)).joints[0]!
    expectWithin(
      bonds.map(({ appliedAt }) => appliedAt),
      [from - 1_500, until + 1_500],
    )
    await page.context().close()
  })
})
