import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
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
import { unique } from './world.ts'

interface Shop {
  readonly id: string
  readonly name: string
}

interface PublishedPlan {
  readonly plan: {
    readonly id: string
    readonly operations: readonly {
      readonly operationId: string
      readonly kind: string
      readonly repairOrderId: string
      readonly placeId: string
      readonly startsAt: string
    }[]
  }
}

interface ListedOperation {
  readonly id: string
  readonly kind: string
  readonly version: number
}

/** The largest shop of the demo has a published plan from the start; this file changes it, and no other one looks. */
describeInBrowser('the scheduler plans a week', () => {
  let page: Page
  let shop: Shop
  beforeAll(async () => {
    page = await openAs('scheduler')
    const { items } = await get<{ items: Shop[] }>(page.context(), '/v1/shops')
    shop = items.find(({ name }) => name === 'Harbour Lane')!
  })

  const published = async () =>
    (await get<PublishedPlan>(page.context(), `/v1/shops/${shop.id}/publishedPlan`)).plan
  const planAndPublish = async () => {
    await page.getByRole('button', { name: 'Publish' }).waitFor({ timeout: 60_000 })
    await page.getByRole('button', { name: 'Compare' }).click()
    await page.getByRole('group', { name: 'Repair orders, before and after' }).waitFor()
    await page.getByRole('button', { name: 'Publish' }).click()
    await page.getByRole('button', { name: 'Publish' }).waitFor({ state: 'detached', timeout: 30_000 })
  }
  const doubleBooked = async () => {
    const [from, to] = [new Date(Date.now() - 3_600_000), new Date(Date.now() + 20 * 86_400_000)]
    const { items } = await get<{
      items: { resourceId: string; startsAt: string; endsAt: string; units: number }[]
    }>(page.context(), `/v1/bookings?shopId=${shop.id}&from=${from.toISOString()}&to=${to.toISOString()}`)
    const resources = await get<{ items: { id: string; capacity: number }[] }>(
      page.context(),
      `/v1/shops/${shop.id}/resources`,
    )
    const single = new Set(resources.items.filter(({ capacity }) => capacity === 1).map(({ id }) => id))
    const booked = items.filter(({ resourceId }) => single.has(resourceId))
    return booked.filter((a, i) =>
      booked.some(
        (b, k) => k > i && a.resourceId === b.resourceId && a.startsAt < b.endsAt && b.startsAt < a.endsAt,
      ),
    )
  }

  it('sees it by bay, person and vehicle, plans, compares, publishes; a bay fails, and the repair is published too', async () => {
    await visit(page, `/plan?shop=${shop.id}&zoom=week`)
    await page.getByRole('region', { name: 'Bay 5 (clean)' }).getByRole('button').first().waitFor()
    for (const [rows, row] of [
      ['People', 'Jory Penhallow'],
      ['Bays and ovens', 'Bake booth'],
    ] as const) {
      await page.getByText(rows, { exact: true }).click()
      await page.getByRole('region', { name: row }).waitFor()
    }
    // The demo's bonds that cure are of no plan, and keep their bays all the same.
    await page
      .getByTitle(/: a bond on it cures/)
      .first()
      .waitFor()
    await page.getByRole('button', { name: 'Plan', exact: true }).click()
    await planAndPublish()
    expect(await doubleBooked()).toEqual([])

    const before = await published()
    const later = before.operations
      .filter(({ kind, startsAt }) => kind === 'prepare' && Date.parse(startsAt) > Date.now() + 3_600_000)
      .toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))[0]!
    await page.getByRole('button', { name: 'Report a change…' }).click()
    const dialog = page.getByRole('dialog', { name: 'Report a change' })
    await dialog.getByLabel('Who or what').selectOption(later.placeId)
    // As long as it takes for the operation to have to go elsewhere, or wait.
    const day = new Date(Date.parse(later.startsAt) + 30 * 3_600_000).toISOString().slice(0, 10)
    await dialog.getByLabel('Until').fill(`${day}T12:00`)
    await dialog.getByLabel('Note').fill('Lift does not go up')
    await dialog.getByRole('button', { name: 'Propose a repair' }).click()
    await dialog.waitFor({ state: 'detached', timeout: 30_000 })
    await planAndPublish()
    const after = (await published()).operations.find(({ operationId }) => operationId === later.operationId)!
    expect(after.placeId !== later.placeId || after.startsAt > later.startsAt).toBe(true)
    expect(await doubleBooked()).toEqual([])
  })

  it('is told first which vehicle a draft drops, and publishes only after confirming it by name', async () => {
    const order = await post<{ id: string }>(page.context(), `/v1/shops/${shop.id}/repairOrders`, {
      number: unique(),
      vehicle: 'Invented Coupe',
    })
    const path = `/v1/repairOrders/${order.id}/operations`
    await post(page.context(), path, { template: 'doorSkin' })
    const { items } = await get<{ items: (ListedOperation & { kind: string })[] }>(page.context(), path)
    const first = items[0]!
    // More people than the shop has.
    await page.context().request.patch(`/v1/operations/${first.id}`, {
      data: { technicians: 4, skill: 'aluminium' },
      headers: { 'if-match': `"${first.version}"` },
    })
    await visit(page, `/plan?shop=${shop.id}&zoom=week`)
    await page.getByRole('button', { name: 'Plan', exact: true }).click()
    const dropped = page.getByRole('region', { name: 'Dropped by the draft' })
    await dropped.getByRole('link', { name: /Invented Coupe/ }).waitFor({ timeout: 60_000 })
    await page.getByRole('button', { name: 'Publish', exact: true }).click()
    const dialog = page.getByRole('dialog', { name: /^Publish with 1 vehicle dropped/ })
    await dialog.getByText(/Invented Coupe/).waitFor()
    expect(await dialog.getByRole('button', { name: 'Publish without them' }).isDisabled()).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    await dialog.getByLabel(/I have read the names/).check()
    await dialog.getByRole('button', { name: 'Publish without them' }).click()
    await dialog.waitFor({ state: 'detached', timeout: 30_000 })
    await dropped.waitFor({ state: 'detached' })
  })

  it('moves an operation by keyboard and by dialog, and is told why not', async () => {
    await visit(page, `/plan?shop=${shop.id}&zoom=week&rows=vehicles`)
    const bars = page.getByRole('group', { name: 'Plan over time' }).getByRole('button', { name: /Refit/ })
    await bars.last().focus()
    await page.keyboard.press('Enter')
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('Start').fill('2020-01-06T08:00')
    await dialog.getByRole('button', { name: 'Move' }).click()
    await dialog.getByText('is over already').waitFor()
    await dialog.getByRole('button', { name: 'Back' }).click()
    await bars.last().focus()
    await page.keyboard.press('Alt+ArrowLeft')
    await page
      .getByText(/Moved to|Not at/)
      .first()
      .waitFor({ timeout: 20_000 })
    expect(await doubleBooked()).toEqual([])
  })

  it('is told while dragging, and nothing moves when it is let go where it may not be', async () => {
    await visit(page, `/plan?shop=${shop.id}&zoom=week&rows=vehicles`)
    const named = (name: RegExp) => page.getByRole('button', { name })
    const row = page
      .locator('section[data-row]')
      .filter({ has: named(/Unclamp and dress/) })
      .filter({ has: named(/Cure/) })
      .first()
    const bar = row.getByRole('button', { name: /Unclamp and dress/ }).first()
    await bar.scrollIntoViewIfNeeded()
    const label = await bar.getAttribute('aria-label')
    const box = (await bar.boundingBox())!
    const cure = (await row.getByRole('button', { name: /Cure/ }).first().boundingBox())!
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
    await page.mouse.down()
    // Back into the middle of its own cure.
    await page.mouse.move(cure.x + cure.width / 2, box.y + box.height / 2, { steps: 5 })
    await page.getByText(/Not at .*(handling strength|break)/).waitFor({ timeout: 20_000 })
    await page.mouse.up()
    await page.getByText(/Not at/).waitFor({ timeout: 20_000 })
    expect(await page.getByRole('button', { name: label! }).count()).toBeGreaterThan(0)
    // The click that ends a drag opens nothing; one without a drag does.
    expect(await page.getByRole('dialog').count()).toBe(0)
    await bar.click()
    await page.getByRole('dialog').getByRole('button', { name: 'Back' }).click()
  })

  it('keeps every row under its axis while somebody tabs through the bars', async () => {
    await visit(page, `/plan?shop=${shop.id}&zoom=day&rows=places`)
    const bars = page.getByRole('group', { name: 'Plan over time' }).getByRole('button')
    const count = await bars.count()
    for (let i = 0; i < count; i += 1) await bars.nth(i).focus()
    expect(count).toBeGreaterThan(5)
    const apart = `[...document.querySelectorAll('[data-row], [data-row] > div')].filter((each) => each.scrollLeft !== 0 || each.scrollTop !== 0)`
    expect(await page.evaluate<number>(`${apart}.length`)).toBe(0)
  })

  it('gives a joint its operations on the page of the job', async () => {
    const order = await post<{ id: string }>(page.context(), `/v1/shops/${shop.id}/repairOrders`, {
      number: unique(),
      vehicle: 'Invented Van',
    })
    await visit(page, `/jobs/${order.id}?shop=${shop.id}`)
    await page.getByLabel('Template').selectOption('doorSkin')
    await page.getByRole('button', { name: 'Add operations' }).click()
    await page
      .getByRole('region', { name: /On the vehicle/ })
      .getByText('Refit')
      .waitFor()
  })

  it('changes what one vehicle needs, told of who was first; the plan that holds says that it is older', async () => {
    const { operations } = await published()
    const last = operations
      .filter(({ kind, startsAt }) => kind === 'prepare' && Date.parse(startsAt) > Date.now() + 3_600_000)
      .toSorted((a, b) => b.startsAt.localeCompare(a.startsAt))[0]!
    const path = `/v1/repairOrders/${last.repairOrderId}/operations`
    const listed = async () => (await get<{ items: ListedOperation[] }>(page.context(), path)).items
    await visit(page, `/jobs/${last.repairOrderId}?shop=${shop.id}`)
    await page.getByRole('button', { name: 'Change operations' }).press('Enter')
    await page.getByRole('button', { name: 'Change Dry fit' }).press('Enter')
    const dialog = page.getByRole('dialog', { name: /^Dry fit/ })
    await dialog.getByLabel('Minutes').fill('0')
    await page.keyboard.press('Enter')
    await dialog.getByText('must be at least 1 min').waitFor()
    const { id, version } = (await listed()).find(({ kind }) => kind === 'dryFit')!
    const theirs = await page.context().request.patch(`/v1/operations/${id}`, {
      data: { technicians: 2 },
      headers: { 'if-match': `"${version}"` },
    })
    expect(theirs.status()).toBe(200)
    await dialog.getByLabel('Minutes').fill('95')
    await page.keyboard.press('Enter')
    await dialog.getByText('Somebody else has changed it since you opened it').waitFor()
    await page.keyboard.press('Enter')
    await page
      .getByRole('listitem', { name: 'Dry fit' })
      .getByText(/^95\smin × 2/)
      .waitFor()

    // The button that opened the dialog has the focus again: the same operation goes on from there.
    await page.locator('button:focus[aria-label="Change Dry fit"]').waitFor()
    await page.keyboard.press('Alt+ArrowDown')
    await page.getByText('Dry fit was moved down').waitFor()
    await page.getByRole('button', { name: 'Add one operation' }).click()
    await page.getByRole('dialog').getByLabel('Name').fill('Weld the flange')
    await page.getByLabel('Place in the order').selectOption('After Cure')
    await page.getByRole('button', { name: 'Add it' }).click()
    // A row more moves what is below it, and the question with it.
    await page.getByRole('listitem', { name: 'Weld the flange' }).waitFor()
    await page.getByRole('button', { name: 'Remove Refit' }).click()
    await page.getByRole('button', { name: 'Remove it' }).click()
    await page.getByRole('listitem', { name: 'Refit' }).waitFor({ state: 'detached' })
    // The question fades: what is half seen has no contrast.
    await page.getByRole('button', { name: 'Remove it' }).waitFor({ state: 'detached' })
    const kinds = (await listed()).map(({ kind }) => kind)
    expect(kinds.slice(0, 5)).toEqual(['prepare', 'bondAndClamp', 'cure', 'weld', 'dryFit'])
    expect(kinds).not.toContain('refit')
    expect(await accessibilityFaults(page)).toEqual([])

    const viewer = await openAs('viewer', { size: PHONE })
    await visit(viewer, `/jobs/${last.repairOrderId}?shop=${shop.id}`)
    await viewer.getByText('The scheduler plans it again.').waitFor()
    expect(await viewer.getByRole('button', { name: /Change|Remove|Move|Add/ }).count()).toBe(0)
    expect(await sidewaysPx(viewer)).toBe(0)

    await page.getByRole('link', { name: 'Plan again' }).click()
    await page.getByText('Operations were changed after this plan was made: plan again.').waitFor()
  })

  describe('its repair templates', () => {
    interface Template {
      readonly key: string
      readonly name: string
      readonly isSetAside: boolean
      readonly steps: readonly {
        readonly name: string
        readonly workMinutes: number | null
        readonly bakeProgram: { readonly setPointC: number } | null
      }[]
    }
    const template = async (key: string) =>
      (await get<{ items: Template[] }>(page.context(), `/v1/shops/${shop.id}/repairTemplates`)).items.find(
        (each) => each.key === key,
      )
    const backToList = () => page.getByRole('heading', { name: 'Hours and templates', level: 1 }).waitFor()

    it('change step by step: told what is wrong at its field, moved by keyboard, asked before changes are lost', async () => {
      await visit(page, `/plan/setup?shop=${shop.id}`)
      await page.getByRole('link', { name: 'Rocker', exact: true }).click()
      await page.getByRole('button', { name: 'Add a step to the joint' }).click()
      await page.getByRole('menuitem', { name: 'Weld or rivet' }).click()
      const added = page.getByRole('listitem', { name: /^Step 7:/ })
      // The new step has the focus: one types its name at once.
      await page.waitForFunction(`document.activeElement?.value === 'Weld or rivet'`)
      await page.keyboard.press('Control+A')
      await page.keyboard.type('   ')
      await added.getByLabel('Minutes').fill('25')
      await page.getByRole('button', { name: 'Save the template' }).click()
      await added.getByText('must not be empty').waitFor()
      await added.getByLabel('Name').fill('Rivet the sill')
      for (let i = 0; i < 2; i += 1) await page.keyboard.press('Alt+ArrowUp')
      await page.getByText('Rivet the sill is step 5 of 12 now').waitFor()
      // The cure goes with its bond, past what was there before.
      await page.getByRole('button', { name: 'Move Cure down' }).click()
      await page.getByRole('listitem', { name: 'Step 3: Rivet the sill' }).waitFor()

      await page.getByRole('link', { name: 'Back to hours and templates' }).click()
      const leaving = page.getByRole('dialog', { name: 'Leave without saving?' })
      await leaving.getByRole('button', { name: 'Stay' }).click()
      await page.getByRole('button', { name: 'Save the template' }).click()
      await backToList()
      const { steps } = (await template('rocker'))!
      expect(steps.slice(1, 6).map(({ name, workMinutes }) => [name, workMinutes])).toEqual([
        ['Dry fit', 75],
        ['Rivet the sill', 25],
        ['Bond and clamp', 60],
        ['Cure', null],
        ['Unclamp and dress', 60],
      ])
    })

    /** On the page of a job that has its operations from the template. */
    const seeItsBake = async (phone: Page) => {
      const [product] = (await get<{ items: { name: string }[] }>(phone.context(), '/v1/products')).items
      const csv = `number,vehicle,joint,product,panelMaterial,panelThicknessMm,safetyClass,lengthMm,flangeWidthMm,beadDiameterMm,template
        ${unique()},Invented Van,Tailgate,"${product!.name}",mildSteel,0.8,S3,900,12,4,tailgateSkin`
      const path = `/v1/shops/${shop.id}/repairOrderImports`
      const made = await post<{ repairOrders: [{ id: string }] }>(phone.context(), path, { csv })
      await visit(phone, `/jobs/${made.repairOrders[0].id}?shop=${shop.id}`)
      await phone.getByText(/^\d+\smin by program · Oven, air 165\s°F, metal 140\s°F for 30\smin/).waitFor()
    }

    it('are copied, set aside and removed, on a phone too', async () => {
      const phone = await openAs('scheduler', { size: PHONE })
      await visit(phone, `/plan/setup?shop=${shop.id}`)
      await phone.getByRole('link', { name: 'Copy Door skin' }).click()
      await phone.getByLabel('Name').first().fill('Tailgate skin')
      await phone.getByText('Tables of repair orders call it tailgateSkin.').waitFor()
      await phone.getByRole('button', { name: 'Change Dry fit' }).click()
      await phone.getByRole('listitem', { name: 'Step 2: Dry fit' }).getByLabel('Minutes').fill('20')
      await phone.getByRole('button', { name: 'Remove Refit' }).click()
      await phone.getByRole('button', { name: 'Change Bake' }).click()
      const bake = phone.getByRole('listitem', { name: /: Bake$/ })
      await bake.getByLabel('Goes by').selectOption('Oven program')
      const setPoint = bake.getByLabel('Air set point')
      await setPoint.fill('90')
      await phone.getByRole('button', { name: 'Save the template' }).click()
      await bake.getByText(/never reaches .* Set the oven warmer/).waitFor()
      await setPoint.fill('165')
      expect(await accessibilityFaults(phone)).toEqual([])
      expect(await sidewaysPx(phone)).toBe(0)
      await phone.getByRole('button', { name: 'Save the template' }).click()
      await phone.getByRole('link', { name: 'Copy Tailgate skin' }).waitFor()
      await seeItsBake(phone)
      await visit(phone, `/plan/setup?shop=${shop.id}`)
      await phone.getByRole('button', { name: 'Set Tailgate skin aside' }).click()
      await phone.getByRole('button', { name: 'Use Tailgate skin again' }).waitFor()
      const made = (await template('tailgateSkin'))!
      expect(made).toMatchObject({ name: 'Tailgate skin', isSetAside: true })
      expect(made.steps[1]).toMatchObject({ name: 'Dry fit', workMinutes: 20 })
      expect(made.steps.slice(-2)).toMatchObject([
        { name: 'Bake', workMinutes: null, bakeProgram: { setPointC: expect.closeTo((165 - 32) / 1.8, 1) } },
        { name: 'Cool', bakeProgram: null },
      ])

      await phone.getByRole('link', { name: 'Tailgate skin', exact: true }).click()
      await phone.getByRole('button', { name: 'Remove', exact: true }).click()
      await phone.getByRole('button', { name: 'Remove it' }).click()
      await phone.getByRole('link', { name: 'Tailgate skin', exact: true }).waitFor({ state: 'detached' })
      await expect.poll(() => template('tailgateSkin')).toBeUndefined()
    })
  })

  it('prints a week on the width of a page, light and without what can be pressed, and says the same in words', async () => {
    const dark = await openAs('scheduler', { scheme: 'dark' })
    await visit(dark, `/plan?shop=${shop.id}&zoom=week`)
    await dark.getByRole('button', { name: 'Print' }).waitFor()
    // A Letter page, landscape, within its margins.
    await dark.setViewportSize({ width: 980, height: 740 })
    await dark.emulateMedia({ media: 'print' })
    await dark.getByText(/As it was published; printed/).waitFor()
    await dark
      .getByRole('cell', { name: /Cure, nothing may move/ })
      .first()
      .waitFor()
    expect(await sidewaysPx(dark)).toBe(0)
    const beyond = `[...document.querySelectorAll('main *')].filter((each) => each.getBoundingClientRect().right > 980)`
    expect(await dark.evaluate<number>(`${beyond}.length`)).toBe(0)
    expect(await dark.getByRole('button', { name: 'Print' }).count()).toBe(0)
    expect(await dark.evaluate<string>('getComputedStyle(document.querySelector("h1")).color')).toBe(
      'rgb(22, 29, 31)',
    )
  })

  it('fits a phone, as a list, and passes axe', async () => {
    const phone = await openAs('scheduler', { size: PHONE })
    await visit(phone, `/plan?shop=${shop.id}`)
    await phone.getByRole('region', { name: 'Bay 5 (clean)' }).waitFor()
    expect(await phone.getByRole('group', { name: 'Plan over time' }).count()).toBe(0)
    expect(await accessibilityFaults(phone)).toEqual([])
  })
})
