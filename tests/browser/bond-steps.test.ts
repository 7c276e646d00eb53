import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  DESK,
  get,
  PHONE,
  post,
  sidewaysPx,
  visit,
} from './browser.ts'
import { addBay, makeJob, makeWorld, openAsNewcomer, startBond, unique, type World } from './world.ts'

/** Counts taps: each thing that a finger touches. */
function counted(page: Page) {
  let taps = 0
  return {
    tap: async (name: string | RegExp, role: 'button' | 'link' | 'textbox' = 'button') => {
      taps += 1
      await page.getByRole('main').getByRole(role, { name }).tap()
    },
    /** The list opens, and a finger chooses. */
    choose: async (label: string, choice: string) => {
      taps += 2
      await page.getByLabel(label).selectOption({ label: choice })
    },
    taps: () => taps,
  }
}

/** A scanner that types, with nothing tapped before. */
async function scan(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
}

describeInBrowser('the five steps of a bond', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })
  const stepNamed = (page: Page, name: string) => page.getByRole('group', { name })

  it('take at most six taps from the job to ‘adhesive is on’, with cartridge and instruments scanned', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const [probe, hygrometer] = [`P${unique()}`, `H${unique()}`]
    const add = (body: object) =>
      post(world.owner.context(), `/v1/shops/${world.shop.id}/instruments`, {
        calibratedUntil: new Date(Date.now() + 90 * 86_400_000).toISOString().slice(0, 10),
        ...body,
      })
    await add({ kind: 'metalProbe', name: 'Probe', serialNumber: probe, accuracyC: 0.5 })
    await add({ kind: 'hygrometer', name: 'Damp', serialNumber: hygrometer, accuracyPercent: 3 })
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const { tap, choose, taps } = counted(page)
    await tap('Start a bond', 'link')
    await page.getByText('1. Cartridge').waitFor()

    await scan(page, world.cartridges[0]!.code)
    await page.getByText(`Scanned: ${world.cartridges[0]!.code}`).waitFor()
    await scan(page, probe)
    await page.getByText(`Scanned: Probe ${probe}`).waitFor()
    await scan(page, hygrometer)
    await page.getByText(`Scanned: Damp ${hygrometer}`).waitFor()
    await stepNamed(page, '1. Cartridge').getByText('Done', { exact: true }).waitFor()
    await stepNamed(page, '2. Prepare').getByText('Now', { exact: true }).waitFor()
    await tap('All of these are done')
    // The keyboard is up and stands where the next figure goes: nothing is tapped between two figures.
    await page.keyboard.type('73')
    await page.keyboard.press('Enter')
    await page.keyboard.type('72')
    await page.keyboard.press('Enter')
    await choose('Air read with', 'The thermometer of the metal')
    await stepNamed(page, '4. Adhesive on').getByText('Now', { exact: true }).waitFor()
    await tap('Adhesive is on')
    await page.getByRole('main').getByText('Close and clamp the joint within').waitFor()
    expect(taps()).toBeLessThanOrEqual(6)

    const bond = await latestBond(page, order.id)
    const { application } = await get<{
      application: { preparation: string[]; panel: { instrument: { serialNumber: string } } }
    }>(page.context(), `/v1/bonds/${bond.id}/record`)
    expect(application.preparation).toEqual(['bareMetal', 'solventWiped', 'flashedOff', 'dryFit', 'skimCoat'])
    expect(application.panel.instrument.serialNumber).toBe(probe)
    expect(joint.id).toBe(bond.jointId)
  })

  it('take at most thirty keys from the job to the clamps, by keyboard alone', async () => {
    const { order } = await makeJob(world, await addBay(world))
    const page = await openAsNewcomer(world, 'technician', { size: DESK })
    await visit(page, `/jobs/${order.id}`)
    let keys = 0
    const press = async (key: string) => {
      keys += 1
      await page.keyboard.press(key)
    }
    const type = async (text: string) => {
      for (const key of text) await press(key)
    }
    /** Tab until what has the focus is called so. */
    const tabTo = async (name: RegExp) => {
      for (let i = 0; i < 12; i += 1) {
        await press('Tab')
        if (name.test(await focusedName(page))) return
      }
      throw new Error(`Twelve tabs do not lead to ${name.source}`)
    }
    await tabTo(/^Start a bond$/)
    await press('Enter')
    await page.getByText('1. Cartridge').waitFor()
    await tabTo(/./)
    if ((await focusedKind(page)) !== 'checkbox') await tabTo(/^[A-Z0-9-]+/)
    await press('Space')
    await press('Enter')
    expect(await focusedName(page)).toBe('All of these are done')
    await press('Enter')
    await type('73')
    await press('Enter')
    await type('72')
    await press('Enter')
    if ((await focusedKind(page)).startsWith('text')) {
      await type('45')
      await press('Enter')
    }
    expect(await focusedName(page)).toBe('Adhesive is on')
    await press('Enter')
    await page.getByRole('main').getByText('Close and clamp the joint within').waitFor()
    await tabTo(/^Closed and clamped$/)
    await press('Enter')
    await expect.poll(async () => (await latestBond(page, order.id)).state).toBe('clamped')
    expect(keys).toBeLessThanOrEqual(30)
  })

  it('say which is done, which is at hand and which comes next, and go on with Enter', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    await visit(page, `/jobs/${order.id}/joints/${joint.id}/bond`)
    const states = async () => {
      const steps = ['1. Cartridge', '2. Prepare', '3. Metal and air', '4. Adhesive on', '5. Close and clamp']
      return Promise.all(
        steps.map((name) =>
          stepNamed(page, name)
            .getByText(/^(Done|Now|Next)$/)
            .innerText(),
        ),
      )
    }
    expect(await states()).toEqual(['Now', 'Next', 'Next', 'Next', 'Next'])
    await page.getByRole('button', { name: 'All of these are done' }).click()
    expect(await states()).toEqual(['Now', 'Done', 'Next', 'Next', 'Next'])
    // What is missing is the cartridge: that is where it leads.
    expect(await focusedKind(page)).toBe('checkbox')
    // A step that was ticked too soon is taken back.
    await page.getByRole('checkbox', { name: 'Let the solvent flash off' }).uncheck()
    expect(await states()).toEqual(['Now', 'Next', 'Next', 'Next', 'Next'])
    expect(await sidewaysPx(page)).toBe(0)
    expect(await accessibilityFaults(page)).toEqual([])
  })

  it('keep the draft on the device over a tab that was closed, and drop it once somebody else bonded the joint', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAsNewcomer(world, 'technician', { size: PHONE })
    const address = `/jobs/${order.id}/joints/${joint.id}/bond`
    await visit(page, address)
    await page.getByRole('button', { name: 'All of these are done' }).click()
    await page.getByLabel('Metal at the joint').fill('73')
    const context = page.context()
    await page.close()
    const again = await context.newPage()
    await visit(again, address)
    await again.getByText(/^As you left it at/).waitFor()
    expect(await again.getByLabel('Metal at the joint').inputValue()).toMatch(/^73\b/)
    expect(await again.getByRole('checkbox', { name: 'Wipe with solvent' }).isChecked()).toBe(true)

    await startBond(world, joint)
    await again.getByText(/has put adhesive on this joint meanwhile/).waitFor()
    await visit(again, address)
    expect(await again.getByLabel('Metal at the joint').inputValue()).toBe('')
    expect(await again.getByRole('checkbox', { name: 'Wipe with solvent' }).isChecked()).toBe(false)
  })
})

async function latestBond(page: Page, orderId: string) {
  const { joints } = await get<{ joints: { bonds: { id: string; jointId: string; state: string }[] }[] }>(
    page.context(),
    `/v1/repairOrders/${orderId}`,
  )
  return joints[0]!.bonds.at(-1)!
}

function focusedName(page: Page): Promise<string> {
  return page.evaluate<string>(
    `(document.activeElement?.getAttribute('aria-label') ?? (document.activeElement?.closest('label') ?? document.activeElement)?.innerText ?? '').trim().split('\\n')[0]`,
  )
}

function focusedKind(page: Page): Promise<string> {
  return page.evaluate<string>(`document.activeElement?.type ?? ''`)
}
