import { beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  DESK,
  get,
  isShown,
  openAs,
  PHONE,
  sidewaysPx,
  visit,
} from './browser.ts'
import { makeJob, makeWorld, startBond, type World } from './world.ts'

interface Asked {
  readonly at: string
  readonly temperatureC: number
  readonly confirmed: readonly string[]
}

describeInBrowser('a reading that can hardly be', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('is asked about, mended by a press, withdrawn, and stays in sight', async () => {
    const { order, joint } = await makeJob(world)
    await startBond(world, joint)
    const page = await openAs('owner', { size: PHONE })
    const sent: Asked[] = []
    page.on('request', (request) => {
      if (request.method() === 'POST' && request.url().endsWith('/readings'))
        sent.push(request.postDataJSON() as Asked)
    })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('button', { name: 'Add panel temperature' }).click()
    const dialog = page.getByRole('dialog', { name: /^Panel temperature at/ })
    // degC typed where the shop reads degF.
    await dialog.getByLabel('Metal temperature').fill('22')
    await dialog.getByRole('button', { name: 'Add it' }).click()
    const question = dialog.getByRole('alert')
    expect(await isShown(question.getByText(/reads like 22.0\s°C entered as\s°F/))).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    await question.getByRole('button', { name: 'Change to 71.6 °F' }).click()
    await dialog.getByRole('button', { name: 'Add it' }).click()
    await dialog.waitFor({ state: 'detached' })
    expect(sent.map(({ temperatureC }) => Math.round(temperatureC))).toEqual([-6, 22])
    // One press to success is one measurement.
    expect(sent[1]!.at).toBe(sent[0]!.at)

    await page.getByRole('button', { name: 'Add panel temperature' }).click()
    await dialog.getByLabel('Metal temperature').fill('140')
    await dialog.getByRole('button', { name: 'Add it' }).click()
    await question.getByRole('button', { name: 'It is right' }).click()
    await dialog.waitFor({ state: 'detached' })
    expect(sent.at(-1)!.confirmed.length).toBeGreaterThan(0)

    await page.getByText('How this was worked out').click()
    const table = page.getByRole('table', { name: 'Panel readings of Outer sill, left' })
    const row = table.getByRole('row').filter({ hasText: '140.0 °F' })
    expect(await isShown(row.getByText('Doubtful'))).toBe(true)
    await row.getByRole('button', { name: 'Withdraw…' }).click()
    const why = page.getByRole('dialog', { name: 'Withdraw the reading of 140.0 °F' })
    await why.getByLabel('Why it does not count').fill('The lamp, not the metal')
    await why.getByRole('button', { name: 'Withdraw', exact: true }).click()
    await why.waitFor({ state: 'detached' })
    expect(await isShown(row.getByText('Withdrawn'))).toBe(true)
    expect(await isShown(row.getByText(/The lamp, not the metal/))).toBe(true)
  })

  it('of a thermometer is shown with its reason, and a thermometer is taken out of use', async () => {
    const page = await openAs('owner', { size: DESK })
    const { items } = await get<{ items: { id: string; name: string }[] }>(
      world.owner.context(),
      `/v1/shops/${world.shop.id}/sensors`,
    )
    expect(items).toHaveLength(1)
    await visit(page, `/admin/equipment?shop=${world.shop.id}`)
    await page.getByRole('button', { name: 'Readings of Test thermometer' }).click()
    const dialog = page.getByRole('dialog', { name: 'Test thermometer' })
    expect(await isShown(dialog.getByText(/was entered 5\sh after it was read/))).toBe(true)
    await dialog.getByLabel('What is wrong').selectOption('doubt')
    await dialog.getByLabel('Reason').fill('Hangs over the heater')
    await dialog.getByRole('button', { name: 'Record it' }).click()
    await dialog.waitFor({ state: 'detached' })
    const row = page.getByRole('row').filter({ hasText: 'Test thermometer' })
    expect(await isShown(row.getByText('Doubted'))).toBe(true)
    await page.getByRole('button', { name: 'Readings of Test thermometer' }).click()
    expect(await isShown(dialog.getByText('Hangs over the heater'))).toBe(true)
    await dialog.getByLabel('What is wrong').selectOption('retire')
    await dialog.getByLabel('Reason').fill('Broken for good')
    await dialog.getByRole('button', { name: 'Record it' }).click()
    await dialog.waitFor({ state: 'detached' })
    expect(await isShown(row.getByText('Out of use'))).toBe(true)
  })
})
