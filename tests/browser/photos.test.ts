import { writeFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { accessibilityFaults, describeInBrowser, get, openAs, PHONE, sidewaysPx, visit } from './browser.ts'
import { addBay, makeJob, makeWorld, startBond, type World } from './world.ts'

interface Attachment {
  readonly id: string
  readonly jointId: string | null
  readonly bondId: string | null
  readonly text: string
  readonly photo: { bytes: number; width: number; height: number; mediaType: string } | null
  readonly withdrawal: object | null
}

/** A picture as noisy as no real one is, PNG, drawn by a browser: nothing gets it small but scaling it down. */
async function drawNoise(page: Page, width: number, height: number): Promise<Buffer> {
  const url = await page.evaluate(
    `(() => {
      const canvas = document.createElement('canvas')
      canvas.width = ${width}
      canvas.height = ${height}
      const context = canvas.getContext('2d')
      const image = context.createImageData(${width}, ${height})
      for (let i = 0, seed = 1; i < image.data.length; i += 1) {
        seed = (seed * 48271) % 2147483647
        image.data[i] = i % 4 === 3 ? 255 : seed % 256
      }
      context.putImageData(image, 0, 0)
      return canvas.toDataURL('image/png')
    })()`,
  )
  return Buffer.from(String(url).split(',')[1]!, 'base64')
}

describeInBrowser('photos and notes, on a phone', () => {
  let world: World
  let folder: string
  let large: string
  let small: string
  beforeAll(async () => {
    world = await makeWorld()
    folder = await mkdtemp(join(tmpdir(), 'clampclock-photos-'))
    large = join(folder, 'flange.png')
    small = join(folder, 'second.png')
    await visit(world.owner, '/help')
    await writeFile(large, await drawNoise(world.owner, 2400, 1200))
    await writeFile(small, await drawNoise(world.owner, 640, 480))
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))

  const region = (page: Page) => page.getByRole('region', { name: 'Photos and notes' })
  const list = async (orderId: string) =>
    (await get<{ items: Attachment[] }>(world.owner.context(), `/v1/repairOrders/${orderId}/attachments`))
      .items
  /** The camera's field, then the one that takes several. */
  const field = (page: Page, nth: 0 | 1) => region(page).locator('input[type=file]').nth(nth)

  it('scales a photo down to 400 kB, keeps it of the joint, and shows it large by keyboard', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const card = region(page)
    await card.getByText('No photos or notes yet.').waitFor()
    expect(await field(page, 0).getAttribute('capture')).toBe('environment')
    await card.getByLabel('Of', { exact: true }).selectOption({ label: 'Outer sill, left' })
    await card.getByLabel('What the next photo shows').fill('Flange before the bead')
    await field(page, 0).setInputFiles(large)
    const thumbnail = card.getByRole('button', { name: 'Show large: Flange before the bead' })
    await thumbnail.waitFor()
    const [kept] = await list(order.id)
    expect(kept).toMatchObject({ jointId: joint.id, text: 'Flange before the bead' })
    expect(kept!.photo).toMatchObject({ mediaType: 'image/jpeg' })
    expect(kept!.photo!.bytes).toBeLessThanOrEqual(400_000)
    expect(kept!.photo!.width).toBeLessThanOrEqual(1600)
    // As it was held, and not pressed.
    expect(kept!.photo!.width / kept!.photo!.height).toBeCloseTo(2, 2)
    await card.getByRole('img', { name: 'Flange before the bead' }).waitFor()

    await thumbnail.focus()
    await page.keyboard.press('Enter')
    const dialog = page.getByRole('dialog', { name: 'Flange before the bead' })
    const picture = dialog.getByRole('img', { name: 'Flange before the bead' })
    await picture.waitFor()
    const shownPx = () => page.evaluate(`document.querySelector('[role=dialog] img').naturalWidth`)
    await expect.poll(shownPx).toBe(kept!.photo!.width)
    expect(await dialog.getByText('SHA-256').count()).toBe(1)
    expect(await accessibilityFaults(page)).toEqual([])
    await page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'detached' })
    const focused = () => page.evaluate(`document.activeElement.getAttribute('aria-label')`)
    await expect.poll(focused).toBe('Show large: Flange before the bead')
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    await page.context().close()
  })

  it('takes several at once; one that gets no answer is kept and goes once, under one key', async () => {
    const { order } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const card = region(page)
    await card.getByRole('button', { name: 'Choose photos' }).waitFor()
    const keys: string[] = []
    let isOffline = true
    await page.route('**/photos', async (route) => {
      keys.push(route.request().headers()['idempotency-key'] ?? '')
      // The first reaches the service, and its answer is lost on the way.
      if (keys.length === 1) await route.fetch()
      await (isOffline ? route.abort('connectionfailed') : route.continue())
    })
    await field(page, 1).setInputFiles([small, large])
    const waiting = card.getByRole('list', { name: 'Photos on their way' })
    await expect.poll(() => waiting.getByText('No answer yet: it is kept here').count()).toBe(2)
    expect(await waiting.getByRole('img', { name: 'A photo' }).count()).toBe(2)
    expect(await accessibilityFaults(page)).toEqual([])
    isOffline = false
    await expect
      .poll(() => card.getByRole('button', { name: /^Show large/ }).count(), { timeout: 30_000 })
      .toBe(2)
    await waiting.waitFor({ state: 'detached' })
    expect(await list(order.id)).toHaveLength(2)
    expect(new Set(keys).size).toBe(2)
    expect(keys.length).toBeGreaterThan(2)
    await page.context().close()
  })

  it('says which file is no picture, and takes the others', async () => {
    const { order } = await makeJob(world, await addBay(world))
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/jobs/${order.id}`)
    const card = region(page)
    await card.getByRole('button', { name: 'Choose photos' }).waitFor()
    const text = { name: 'list.txt', mimeType: 'image/png', buffer: Buffer.from('no picture') }
    await field(page, 1).setInputFiles([
      text,
      { name: 'bare.png', mimeType: 'image/png', buffer: await drawNoise(page, 640, 480) },
    ])
    await card
      .getByRole('alert')
      .getByText('This file is no picture that this browser reads: list.txt')
      .waitFor()
    await card.getByRole('button', { name: /^Show large/ }).waitFor()
    // What the service refuses is said with its reason, and can be put away.
    await field(page, 1).setInputFiles([
      { name: 'thin.png', mimeType: 'image/png', buffer: await drawNoise(page, 640, 40) },
    ])
    await card
      .getByRole('alert')
      .getByText(/^Not added: /)
      .waitFor()
    await card.getByRole('button', { name: 'Discard' }).click()
    await card.getByText(/^Not added: /).waitFor({ state: 'detached' })
    expect(await list(order.id)).toHaveLength(1)
    await page.context().close()
  })

  it('keeps a note of one attempt; withdrawn, it is struck through with the reason, in the record too', async () => {
    const { order, joint } = await makeJob(world, await addBay(world))
    const bond = await startBond(world, joint)
    const page = await openAs('owner', { size: PHONE })
    await visit(page, `/bonds/${bond.id}/record`)
    const card = region(page)
    const adding = card.getByRole('button', { name: 'Add note' })
    await adding.focus()
    await page.keyboard.press('Enter')
    const dialog = page.getByRole('dialog', { name: 'Add note' })
    expect(await accessibilityFaults(page)).toEqual([])
    await dialog.getByRole('textbox', { name: 'Note' }).fill('Bead was even all along')
    await dialog.getByRole('button', { name: 'Add it' }).click()
    await dialog.waitFor({ state: 'detached' })
    await card.getByText('Bead was even all along').waitFor()
    expect(await list(order.id)).toMatchObject([{ jointId: joint.id, bondId: bond.id, photo: null }])
    const entries = page.getByRole('table', { name: 'Entries of Outer sill, left' })
    await entries.getByText('Bead was even all along').waitFor()

    await card.getByRole('button', { name: 'Withdraw: Bead was even all along' }).click()
    await page.getByLabel('Why does it not count?').fill('It was another joint')
    await page.getByRole('dialog').getByRole('button', { name: 'Withdraw', exact: true }).click()
    await page.getByRole('dialog').waitFor({ state: 'detached' })
    await card.getByText(/^Withdrawn by .*: It was another joint$/).waitFor()
    expect(await card.locator('s').innerText()).toBe('Bead was even all along')
    await entries.getByText('Photo or note withdrawn').waitFor()
    expect(await page.getByText(/chain of its entries is intact/).count()).toBe(1)
    expect(await accessibilityFaults(page)).toEqual([])

    const viewer = await openAs('viewer', { size: PHONE })
    await visit(viewer, `/jobs/${order.id}`)
    await region(viewer).getByText('Bead was even all along').waitFor()
    expect(await region(viewer).getByRole('button').count()).toBe(0)
    await viewer.context().close()
    await page.context().close()
  })
})
