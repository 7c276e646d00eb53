import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { describeInBrowser, get, isShown, openPage, visit } from './browser.ts'
import { makeJob, makeWorld, openAsNewcomer, startBond, type World } from './world.ts'

async function choose(page: Page, chosen: Readonly<Record<string, string>>): Promise<void> {
  await visit(page, '/jobs')
  await page.getByRole('button', { name: /^Invented/ }).click()
  await page.getByRole('menuitem', { name: 'My language and units' }).click()
  const dialog = page.getByRole('dialog', { name: 'My language and units' })
  for (const [label, value] of Object.entries(chosen)) await dialog.getByLabel(label).selectOption(value)
  await dialog.getByRole('button', { name: 'Save' }).click()
  await dialog.waitFor({ state: 'detached' })
}

describeInBrowser('a person’s own units', () => {
  let world: World
  let job: Awaited<ReturnType<typeof makeJob>>
  beforeAll(async () => {
    world = await makeWorld()
    job = await makeJob(world)
  })

  it('are what volumes and lengths are shown in, and typed in, and are converted exactly', async () => {
    const page = await openAsNewcomer(world, 'owner')
    await choose(page, { Volumes: 'flOz', Lengths: 'in', 'First day of the week': '7' })
    await visit(page, `/jobs/${job.order.id}`)
    await page.getByText('Procedure, material and size').click()
    expect(await isShown(page.getByText('23.62 in long, flange 0.7087 in, bead 0.1969 in'))).toBe(true)

    await visit(page, `/jobs/${job.order.id}/joints/new`)
    const length = page.getByLabel('Length')
    await length.fill('39.37')
    expect(await length.inputValue()).toBe('39.37 in')
    await page.getByLabel('Joint', { exact: false }).first().fill('Roof, right')
    await page.getByLabel('Product').selectOption(world.product.id)
    await page.getByRole('button', { name: 'Add joint' }).click()
    await page.getByRole('heading', { name: 'Roof, right' }).waitFor()
    const { joints } = await get<{ joints: { name: string; lengthMm: number; flangeWidthMm: number }[] }>(
      page.context(),
      `/v1/repairOrders/${job.order.id}`,
    )
    // 39.37 × 25.4, and what nobody touched stays as it was.
    expect(joints.find(({ name }) => name === 'Roof, right')).toMatchObject({
      lengthMm: 999.998,
      flangeWidthMm: 20,
    })

    await visit(page, `/plan/setup?shop=${world.shop.id}`)
    const days = await page.getByLabel(/^(Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day$/).all()
    expect(await days[0]!.getAttribute('id')).toBe(await page.getByLabel('Sunday').getAttribute('id'))
    await page.context().close()
  })

  it('are typed with a comma, or a point, where the language writes one, and shown with it', async () => {
    const page = await openAsNewcomer(world, 'owner')
    await choose(page, { Language: 'es', Lengths: 'mm' })
    await visit(page, `/jobs/${job.order.id}/joints/new`)
    const length = page.getByLabel('Longitud')
    for (const typed of ['612,5', '612.5']) {
      await length.fill('')
      await length.pressSequentially(typed)
      expect(await length.inputValue()).toBe('612,5 mm')
      // Set at once, as a phone's keyboard may.
      await length.fill(typed)
      expect(await length.inputValue()).toBe('612,5 mm')
    }
    await page.context().close()
  })

  it('correct what a cartridge holds in fluid ounces', async () => {
    const page = await openAsNewcomer(world, 'owner')
    await choose(page, { Volumes: 'flOz' })
    // Only what is opened can be corrected.
    await startBond(world, job.joint)
    const { id } = world.cartridges[0]!
    await visit(page, `/stock/cartridges/${id}`)
    await page.getByRole('button', { name: 'Correct content' }).click()
    const content = page.getByLabel('Remaining content')
    await content.fill('5')
    await page.getByLabel('Why does the record differ', { exact: false }).fill('Weighed it twice')
    await page.getByRole('button', { name: 'Record correction' }).click()
    await page.getByRole('dialog').waitFor({ state: 'detached' })
    const { remainingMl } = await get<{ remainingMl: number }>(page.context(), `/v1/cartridges/${id}`)
    // 5 × 29.5735295625, in whole microlitres.
    expect(remainingMl).toBeCloseTo(147.868, 3)
    expect(await isShown(page.getByText('5.0 fl oz').first())).toBe(true)
    await page.context().close()
  })
})

describeInBrowser('the language before anybody has signed in', () => {
  it('is chosen on the page itself, and is there after a reload', async () => {
    const page = await openPage()
    await visit(page, '/')
    await page.getByLabel('Language').selectOption('es')
    await page.getByLabel('Idioma').waitFor()
    await page.reload()
    expect(await isShown(page.getByRole('button', { name: 'Iniciar sesión', exact: true }))).toBe(true)
    expect(await page.locator('html').getAttribute('lang')).toBe('es')
    await page.context().close()
  })
})
