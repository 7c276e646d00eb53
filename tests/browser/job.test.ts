import type { Locator, Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  get,
  openAs,
  PHONE,
  post,
  visit,
  isShown,
} from './browser.ts'
import { addBay, makeJob, makeWorld, PREPARATION, startBond, type World } from './world.ts'

/** Fills in everything that a bond needs, but ticks nothing of the preparation. */
async function fillIn(page: Page, world: World): Promise<void> {
  await page.getByRole('checkbox', { name: new RegExp(world.cartridges[0]!.code) }).check()
  await page.getByLabel('Dispenser', { exact: true }).selectOption({ label: 'Test gun' })
  await page.getByLabel('Metal at the joint').fill('73')
  await page.getByLabel('Air', { exact: true }).fill('72')
  await page.getByLabel('Relative humidity').fill('45')
}

/** Whether somebody sees it without scrolling, above the buttons that stick to the bottom. */
async function isInView(locator: Locator): Promise<boolean> {
  const box = await locator.boundingBox()
  return box !== null && box.y >= 0 && box.y < PHONE.height - 60
}

async function fillInAll(page: Page, world: World): Promise<void> {
  await fillIn(page, world)
  for (const item of PREPARATION) await page.getByRole('checkbox', { name: item }).check()
}

describeInBrowser('the main job at the bay side, on a phone', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('starts a bond once every refusal is put right, closes the joint, and is told when it may be moved', async () => {
    const { order, vehicle } = await makeJob(world)
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('heading', { name: vehicle }).waitFor()
    await page.getByRole('link', { name: 'Start a bond' }).click()
    await fillIn(page, world)

    await page.getByRole('button', { name: 'Check' }).click()
    const answer = page.getByRole('region', { name: 'May I use this here and now?' })
    await answer.getByText('No', { exact: true }).waitFor()
    expect(await answer.getByRole('listitem').count()).toBeGreaterThanOrEqual(3)

    for (const item of PREPARATION) {
      await page.getByRole('checkbox', { name: item }).check()
    }
    await page.getByRole('button', { name: 'Check' }).click()
    await answer.getByText('Yes', { exact: true }).waitFor()
    await page.getByRole('button', { name: 'Adhesive is on' }).click()

    const workTime = page.getByRole('main').getByRole('timer').first()
    await page.getByRole('main').getByText('Close and clamp the joint within').waitFor()
    const early = await workTime.innerText()
    await expect.poll(() => workTime.innerText(), { timeout: 5_000 }).not.toBe(early)

    await page.getByRole('main').getByRole('button', { name: 'Closed and clamped' }).click()
    const move = page.getByRole('region', { name: 'May I move the vehicle?' })
    await move.getByText(/No/).first().waitFor()
    await page.getByRole('button', { name: 'Add panel temperature' }).click()
    await page.getByLabel('Metal temperature').fill('74')
    await page.getByRole('button', { name: 'Add it' }).click()
    await page.getByRole('dialog').waitFor({ state: 'detached' })
    await page.getByText('How this was worked out').click()
    await page
      .getByRole('table', { name: /Temperatures of/ })
      .getByText('74.0 °F')
      .waitFor()
  })

  it('says at the button that a press is kept and not sent, and sends the very same by itself and when it is pressed again', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}/joints/${joint.id}/bond`)
    await fillIn(page, world)
    for (const item of PREPARATION) await page.getByRole('checkbox', { name: item }).check()
    const sent: { appliedAt: string; key: string | undefined }[] = []
    let isCut = true
    await page.route('**/v1/joints/*/bonds', (route) => {
      const request = route.request()
      sent.push({ appliedAt: request.postDataJSON().appliedAt, key: request.headers()['idempotency-key'] })
      return isCut ? route.abort() : route.continue()
    })
    const press = page.getByRole('button', { name: 'Adhesive is on' })
    await press.click()
    const note = page.getByRole('alert').filter({ hasText: /is not sent yet: it is kept on this device/ })
    expect(await note.innerText()).toMatch(/^Adhesive on at \d\d:\d\d is/)
    await expect.poll(() => isInView(note)).toBe(true)
    // Checking meanwhile does not make another press of it.
    await page.getByRole('button', { name: 'Check' }).click()
    const answer = page.getByRole('region', { name: 'May I use this here and now?' })
    await answer.getByText('Yes', { exact: true }).waitFor()
    await expect.poll(() => isInView(answer)).toBe(true)
    expect(await isInView(note)).toBe(true)
    isCut = false
    await press.click()
    await page.getByRole('main').getByText('Close and clamp the joint within').waitFor()
    expect(sent.length).toBeGreaterThan(1)
    for (const again of sent) expect(again).toEqual(sent[0])
    const { joints } = await get<{ joints: { bonds: { appliedAt: string }[] }[] }>(
      world.owner.context(),
      `/v1/repairOrders/${order.id}`,
    )
    expect(joints[0]?.bonds.map(({ appliedAt }) => appliedAt)).toEqual([sent[0]?.appliedAt])
  })

  it('brings the answer into view, and lets no question outlive the value that it was asked about', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}/joints/${joint.id}/bond`)
    await fillIn(page, world)
    const metal = page.getByLabel('Metal at the joint')
    await metal.fill('21,5')
    expect(await metal.inputValue()).toBe('21.5 °F')
    await metal.fill('')
    await metal.pressSequentially('22,1')
    expect(await metal.inputValue()).toBe('22.1 °F')
    // A letter after the number: what was read in the other unit is put into the shop's, and once only.
    await metal.fill('')
    await metal.pressSequentially('23cc')
    expect(await metal.inputValue()).toBe('73.4 °F')
    await metal.press('c')
    expect(await metal.inputValue()).toBe('73.4 °F')
    await metal.fill('22')
    await page.getByRole('button', { name: 'Check' }).click()
    const mend = page.getByRole('button', { name: /^Change to / })
    await expect.poll(() => isInView(page.getByText('Check this reading'))).toBe(true)
    expect(await mend.innerText()).toBe('Change to 71.6\u00A0°F')
    await mend.click()
    expect(await metal.inputValue()).toBe('71.6 °F')
    expect(await mend.count()).toBe(0)
    await page.getByText('It was ‘No’ before you changed the form, because:').waitFor()
    await page.getByText('Check again: something has changed since').waitFor()

    await page.getByRole('button', { name: 'Adhesive is on' }).click()
    const note = page.getByRole('alert').filter({ hasText: /^Refused, not recorded: \d reasons?\./ })
    await note.waitFor()
    // Once the page has come to rest: it moves to the answer by itself.
    await expect.poll(() => isInView(note)).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    await page.getByLabel('Relative humidity').fill('46')
    await page.getByText('Not recorded. You have changed the form since: press again.').waitFor()
  })

  it("says to measure the metal where the air at the joint and the bay's thermometer cannot both be right", async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}/joints/${joint.id}/bond`)
    // It is not filled in: a copy of the bay's own display would prove nothing.
    expect(await page.getByLabel('Air', { exact: true }).inputValue()).toBe('')
    await page.getByText(/with the thermometer you measure the metal with/).waitFor()
    await fillIn(page, world)
    await page.getByLabel('Metal at the joint').fill('63')
    await page.getByLabel('Air', { exact: true }).fill('62')
    for (const item of PREPARATION) await page.getByRole('checkbox', { name: item }).check()
    await page.getByRole('button', { name: 'Check' }).click()
    await page.getByText(/where the bay's thermometer says/).waitFor()
    await page.getByRole('button', { name: 'It is right' }).click()
    await page.getByRole('button', { name: 'Adhesive is on' }).click()
    await page.getByRole('main').getByRole('button', { name: 'Closed and clamped' }).click()
    const move = page.getByRole('region', { name: 'May I move the vehicle?' })
    await move.getByText(/Measure the metal with another thermometer/).waitFor()
  })

  it('refuses the move, records one that happened all the same, and keeps it open until disposed of', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const bond = await startBond(world, joint)
    await post(world.owner.context(), `/v1/bonds/${bond.id}/clamping`, {})
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const move = page.getByRole('region', { name: 'May I move the vehicle?' })
    await move.getByText(/^No/).first().waitFor()
    expect(await move.getByRole('button', { name: /Move the vehicle/ }).count()).toBe(0)

    await move.getByRole('button', { name: 'It was moved already…' }).click()
    await page.getByLabel('What happened, and why?').fill('Pushed out to let the tow truck in')
    await page.getByRole('button', { name: 'Record that it was moved' }).click()
    await page.getByText('Released before handling strength', { exact: true }).waitFor()
    await page.getByText(/Pushed out to let the tow truck in \(/).waitFor()

    await move.getByText('No: a joint must be inspected or made again first').waitFor()

    await page.getByRole('button', { name: 'Decide…' }).click()
    const dialog = page.getByRole('dialog')
    // Nothing is chosen beforehand: five characters and a button are no inspection.
    expect(await dialog.getByRole('radio', { checked: true }).count()).toBe(0)
    expect(await dialog.getByRole('button', { name: 'Record the decision' }).isDisabled()).toBe(true)
    await dialog.getByLabel('It was inspected, and is accepted').check()
    // No inspector makes adhesive cure.
    await dialog.getByText(/^Its adhesive cannot have reached handling strength yet/).waitFor()
    expect(await dialog.getByRole('button', { name: 'Record the decision' }).isDisabled()).toBe(true)
    await dialog.getByLabel('Make it again').check()
    await dialog.getByLabel('Why must it be made again?').fill('It was pulled out while soft')
    await dialog.getByRole('button', { name: 'Record the decision' }).click()
    await page.getByText(/It was pulled out while soft/).waitFor()
    expect(await move.getByText(/^Yes/).count()).toBe(0)
  })

  it('accepts a joint by an inspector, a method and a result', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const bond = await startBond(world, joint)
    const given = { reason: 'Lifted, and scraped off at once', wasLifted: true }
    await post(world.owner.context(), `/v1/bonds/${bond.id}/abandonment`, given)
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const move = page.getByRole('region', { name: 'May I move the vehicle?' })
    await move.getByText('No: a joint must be inspected or made again first').waitFor()
    await page.getByRole('button', { name: 'Decide…' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('It was inspected, and is accepted').check()
    await dialog.getByLabel('Inspector').selectOption({ index: 1 })
    await dialog.getByLabel('Method').fill('Looked at both faces')
    await dialog.getByLabel('Result').fill('Both faces are clean')
    await dialog.getByRole('button', { name: 'Record the decision' }).click()
    await page.getByText(/Looked at both faces. Both faces are clean/).waitFor()
    await move.getByText('Yes, it may be moved').waitFor()
  })

  it('goes on all the same only for somebody entitled, with a written reason', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}/joints/${joint.id}/bond`)
    await fillInAll(page, world)
    // Below the product's application range of 15 degC (59 degF).
    await page.getByLabel('Metal at the joint').fill('58')
    await page.getByRole('button', { name: 'Check' }).click()
    await page.getByLabel('Override reason').first().fill('Heated by lamp while applying')
    await page.getByRole('button', { name: 'Adhesive is on' }).click()
    await page.getByText('Went on although a gate refused').waitFor()
    expect(await isShown(page.getByText(/Heated by lamp while applying/))).toBe(true)
  })

  it('asks about less than the joint needs, with both figures, and keeps it with the reason', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}/joints/${joint.id}/bond`)
    await fillInAll(page, world)
    await page.getByLabel('Out of the cartridges').fill('12')
    await page.getByRole('button', { name: 'Check' }).click()
    await page.getByText('Not yet: check the amount').waitFor()
    await page.getByRole('button', { name: 'Adhesive is on' }).click()
    const panel = page.getByRole('alert').filter({ hasText: 'Check the amount' })
    expect(await isShown(panel.getByText(/^12\smL recorded, this joint needs 2\d\smL$/))).toBe(true)
    expect(await isShown(panel.getByRole('button', { name: /^Change to 2\d\smL$/ }))).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    await panel.getByLabel('Why is less enough?').fill('Half of the flange was bonded before')
    await panel.getByRole('button', { name: 'Keep 12 mL' }).click()
    await page.getByText('How this was worked out').first().click()
    await page.getByText(/Less than needed, confirmed by .* because: Half of the flange/).waitFor()
    await page.getByRole('link', { name: 'Bond record of attempt 1' }).click()
    await page.getByText(/^12\smL; the joint needs 2\d\smL. Less than needed, confirmed by/).waitFor()
  })

  it('records what is on already although a gate refuses, and holds the vehicle for it', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}/joints/${joint.id}/bond`)
    await fillIn(page, world)
    await page.getByRole('button', { name: 'Adhesive is on' }).click()
    await page
      .getByText(/The surfaces are not prepared/)
      .first()
      .waitFor()
    await page.getByRole('button', { name: 'It is on already: record it…' }).click()
    await page.getByLabel('What happened, and why?').fill('The helper did not wait for the check')
    await page.getByRole('button', { name: 'Record that it is on' }).click()
    await page.getByText('Applied although a gate refused').waitFor()
    const move = page.getByRole('region', { name: 'May I move the vehicle?' })
    await move.getByText('No: a joint must be inspected or made again first').waitFor()
  })

  it('abandons an attempt with a reason and offers the next', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    await startBond(world, joint)
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('button', { name: 'Abandon' }).click()
    await page.getByLabel('Why is this attempt over?').fill('Panels came apart while aligning')
    await page.getByRole('button', { name: 'Abandon this attempt' }).click()
    await page.getByText(/Attempt 1 abandoned: Panels came apart/).waitFor()
    expect(await isShown(page.getByRole('link', { name: 'Start a bond' }))).toBe(true)
  })
})

describeInBrowser('a viewer', () => {
  it('is shown the job and offered nothing that changes it', async () => {
    const world = await makeWorld()
    const { order, joint } = await makeJob(world)
    await startBond(world, joint)
    const page = await openAs('viewer', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    await page.getByRole('main').getByText('Close and clamp the joint within').waitFor()
    for (const name of [
      'Closed and clamped',
      'Add panel temperature',
      'Abandon',
      'It was moved already…',
      'Edit',
    ]) {
      expect({ name, offered: await page.getByRole('button', { name }).count() }).toEqual({
        name,
        offered: 0,
      })
    }
  })
})
