import type { MessageKey } from '@clampclock/messages'
import { beforeAll, expect, it } from 'vitest'
import { PHOTO } from '../support/fixtures.ts'
import { describeInBrowser, get, post, visit } from './browser.ts'
import { cutOff, inPseudo, openPseudo, outside } from './pseudo.ts'
import { makeJob, makeWorld, startBond, type World } from './world.ts'

interface Items {
  readonly world: World
  readonly freeJob: Awaited<ReturnType<typeof makeJob>>
  readonly job: Awaited<ReturnType<typeof makeJob>>
  readonly bondId: string
  readonly lotId: string
}

/** Pages of one item, and the buttons that open a dialog there. */
const PAGES: readonly (readonly [
  name: string,
  path: (items: Items) => string,
  dialogs: readonly MessageKey[],
])[] = [
  [
    'a job with a bond',
    ({ job }) => `/jobs/${job.order.id}`,
    [
      'job.addPanelTemperature',
      'job.clampedEarlier',
      'job.abandon',
      'job.itWasMovedAlready',
      'attachments.addNote',
      'attachments.withdraw',
    ],
  ],
  ['a job without', ({ freeJob }) => `/jobs/${freeJob.order.id}`, ['job.changeTheProcedure']],
  ['the form of a job', ({ job }) => `/jobs/${job.order.id}/edit`, []],
  ['a new joint', ({ job }) => `/jobs/${job.order.id}/joints/new`, []],
  ['the form of a bond', ({ freeJob }) => `/jobs/${freeJob.order.id}/joints/${freeJob.joint.id}/bond`, []],
  ['a bond record', ({ bondId }) => `/bonds/${bondId}/record`, []],
  [
    'a cartridge',
    ({ world }) => `/stock/cartridges/${world.cartridges[1]!.id}`,
    ['stock.openIt', 'stock.discard2', 'stock.printLabel'],
  ],
  [
    'an opened cartridge',
    ({ world }) => `/stock/cartridges/${world.cartridges[0]!.id}`,
    ['stock.correctContent'],
  ],
  ['a lot', ({ lotId }) => `/stock/lots/${lotId}`, ['stock.putOnHold']],
  ['a recall', ({ lotId }) => `/stock/lots/${lotId}/recall`, []],
  ['a product', ({ world }) => `/products/${world.product.id}`, []],
  ['a new sheet', ({ world }) => `/products/${world.product.id}/sheet`, []],
  ['the schedule', ({ world }) => `/schedule?shop=${world.shop.id}`, ['schedule.newBooking']],
  ['the plan', () => '/plan', ['plan.reportAChange2']],
  ['the hours', ({ world }) => `/plan/setup?shop=${world.shop.id}`, ['plan-setup.add']],
  ['people', () => '/admin/people', ['admin.addPerson']],
  ['qualifications', () => '/admin/qualifications', ['admin.addQualification']],
  ['tokens', () => '/admin/tokens', ['admin.makeToken']],
  ['webhooks', () => '/admin/webhooks', ['admin.addWebhook']],
  ['shops', () => '/admin/shops', ['admin.addShop']],
  ['ordering', () => '/admin/ordering', ['admin.changeWhatIsKept', 'admin.addSupplier', 'admin.setAWay']],
  [
    'equipment',
    ({ world }) => `/admin/equipment?shop=${world.shop.id}`,
    [
      'admin.add',
      'admin.addDispenser',
      'admin.addStorageLocation',
      'admin.addInstrument',
      'admin.addThermometer',
      'admin.readings3',
    ],
  ],
]

describeInBrowser('a language that nobody speaks, on pages of one item', () => {
  let items: Items
  beforeAll(async () => {
    const world = await makeWorld()
    const job = await makeJob(world)
    const bond = await startBond(world, job.joint)
    await post(world.owner.context(), `/v1/repairOrders/${job.order.id}/notes`, { text: 'Squeeze-out' })
    await post(world.owner.context(), `/v1/repairOrders/${job.order.id}/photos`, { base64: PHOTO.base64 })
    const freeJob = await makeJob(world, world.otherBay)
    const { lotId } = await get<{ lotId: string }>(
      world.owner.context(),
      `/v1/cartridges/${world.cartridges[1]!.id}`,
    )
    items = { world, job, freeJob, bondId: bond.id, lotId }
  })

  it.each(PAGES)(
    'is all that %s reads, its dialogs too, and nothing is cut',
    async (_name, path, dialogs) => {
      const { page, answers } = await openPseudo('owner')
      await visit(page, path(items))
      await page.waitForLoadState('networkidle').catch(() => undefined)
      // What is folded away is read too.
      await page.evaluate('document.querySelectorAll("details").forEach((each) => { each.open = true })')
      await page.waitForLoadState('networkidle').catch(() => undefined)
      const found: Record<string, { said: string[]; isCut: string[] }> = {
        page: { said: await outside(page, answers), isCut: await cutOff(page) },
      }
      for (const key of dialogs) {
        // By its text: some buttons say more to a screen reader.
        await page
          .locator('button', { hasText: inPseudo(key) })
          .first()
          .click()
        const dialog = page.getByRole('dialog')
        await dialog.getByRole('button').first().waitFor()
        await page.waitForLoadState('networkidle').catch(() => undefined)
        found[key] = { said: await outside(page, answers), isCut: await cutOff(page) }
        await page.keyboard.press('Escape')
        await dialog.waitFor({ state: 'detached' })
      }
      await page.context().close()
      expect(Object.entries(found).filter(([, { said, isCut }]) => said.length + isCut.length > 0)).toEqual(
        [],
      )
    },
  )

  it('is all that the dialog of one’s own language and units reads', async () => {
    const { page, answers } = await openPseudo('owner')
    await visit(page, '/help')
    await page.getByRole('button', { name: /Odalys|Owner/ }).click()
    await page.getByRole('menuitem', { name: inPseudo('app.myLanguageAndUnits') }).click()
    await page.getByRole('dialog').getByRole('combobox').first().waitFor()
    const said = await outside(page, answers)
    const isCut = await cutOff(page)
    await page.context().close()
    expect({ said, isCut }).toEqual({ said: [], isCut: [] })
  })
})
