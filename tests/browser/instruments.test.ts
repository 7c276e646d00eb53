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
import { addBay, makeJob, makeWorld, PREPARATION, unique, type World } from './world.ts'

interface Person {
  readonly id: string
  readonly email: string
}

const DAY_MS = 86_400_000
const day = (daysAhead: number) => new Date(Date.now() + daysAhead * DAY_MS).toISOString().slice(0, 10)

describeInBrowser('a joint of class S2', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
    const context = world.owner.context()
    const add = (name: string, kind: string, accuracyC: number, calibratedUntil: string) =>
      post(context, `/v1/shops/${world.shop.id}/instruments`, {
        kind,
        name,
        serialNumber: unique(),
        accuracyC,
        calibratedUntil,
      })
    await add('Due gun', 'infrared', 2, day(-40))
    await add('Good probe', 'metalProbe', 0.5, day(90))
    // The owner makes this joint: qualified, so that only the thermometer is asked for.
    const { items } = await get<{ items: Person[] }>(context, '/v1/people')
    const owner = items.find(({ email }) => email.startsWith('owner@'))
    await post(context, `/v1/people/${owner?.id}/qualifications`, {
      safetyClass: 'S2',
      evidence: `Invented course ${unique()}`,
      issuedOn: day(-10),
      validUntil: day(300),
    })
  })

  it('is started without an override once a thermometer in calibration is named', async () => {
    const { order, joint } = await makeJob(world, await addBay(world), 'S2')
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByText('S2: danger of injury or large loss').waitFor()
    expect(await isShown(page.getByText(/somebody qualified for S2 or S1/))).toBe(true)

    await visit(page, `/jobs/${order.id}/joints/${joint.id}/bond`)
    await page.getByRole('checkbox', { name: new RegExp(world.cartridges[0]!.code) }).check()
    await page.getByLabel('Dispenser', { exact: true }).selectOption({ label: 'Test gun' })
    await page.getByLabel('Metal at the joint').fill('73')
    await page.getByLabel('Air', { exact: true }).fill('72')
    await page.getByLabel('Relative humidity').fill('45')
    for (const item of PREPARATION) {
      await page.getByRole('checkbox', { name: item }).check()
    }
    await page.getByRole('button', { name: 'Check' }).click()
    const answer = page.getByRole('region', { name: 'May I use this here and now?' })
    await answer.getByText(/Which thermometer/).waitFor()

    const thermometer = page.getByLabel('Metal measured with')
    const choices = await thermometer.locator('option').allInnerTexts()
    const optionOf = (name: string) => choices.find((choice) => choice.startsWith(name)) ?? ''
    expect(optionOf('Due gun')).toContain('out of calibration since')
    await thermometer.selectOption({ label: optionOf('Due gun') })
    await page.getByRole('button', { name: 'Check' }).click()
    await answer.getByText(/Due gun .* was calibrated until/).waitFor()

    await thermometer.selectOption({ label: optionOf('Good probe') })
    const accuracy = page.getByLabel('Thermometer, plus or minus')
    expect(await accuracy.inputValue()).toBe('0.9 °F')
    expect(await accuracy.isDisabled()).toBe(true)
    await page.getByRole('button', { name: 'Check' }).click()
    await answer.getByText('Yes', { exact: true }).waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    await page.getByRole('button', { name: 'Adhesive is on' }).click()
    await page.getByRole('main').getByText('Close and clamp the joint within').waitFor()

    await page.getByRole('button', { name: 'Add panel temperature' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('Metal temperature').fill('72')
    await dialog.getByLabel('Metal measured with').selectOption({ label: optionOf('Good probe') })
    await dialog.getByRole('button', { name: 'Add it' }).click()
    await dialog.waitFor({ state: 'hidden' })
    const { joints } = await get<{ joints: { bonds: { incidents: unknown[]; readings: object[] }[] }[] }>(
      page.context(),
      `/v1/repairOrders/${order.id}`,
    )
    const bond = joints[0]?.bonds[0]
    expect(bond?.incidents).toEqual([])
    expect(bond?.readings).toContainEqual(expect.objectContaining({ accuracyC: 0.5, source: 'metalProbe' }))
  })
})
