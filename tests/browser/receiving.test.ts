import bwipjs from 'bwip-js/node'
import { beforeAll, expect, it } from 'vitest'
import { checkDigit } from '../../packages/stock/src/index.ts'
import {
  accessibilityFaults,
  describeInBrowser,
  get,
  isShown,
  openAs,
  PHONE,
  scan,
  visit,
  withoutErrors,
} from './browser.ts'
import { makeWorld, unique, type World } from './world.ts'

/** A GTIN that no other test has taken. */
function newGtin(): string {
  const body = `0952${String(Date.now() % 1e9).padStart(9, '0')}`
  return `${body}${checkDigit(body)}`
}

describeInBrowser('receiving by scan', () => {
  let world: World
  const gtin = newGtin()
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('asks once which product a GTIN is, counts repeated scans, and knows it the next time', async () => {
    const page = await openAs('parts')
    const lot = `S${unique()}`
    await visit(page, `/stock/receive?shop=${world.shop.id}`)
    await scan(page, `01${gtin}17350200${'10'}${lot}`)
    await page.getByText(`GTIN ${gtin} is new here`).waitFor()
    expect(await page.getByLabel('Printed expiry').inputValue()).toBe('2035-02')
    await page.getByLabel('Product').selectOption({ label: world.product.name })
    await page.getByLabel('Scan the cartridge or carton').focus()
    await scan(page, `01${gtin}17350200${'10'}${lot}`)
    await expect
      .poll(() => page.getByRole('textbox', { name: 'Cartridges', exact: true }).inputValue())
      .toBe('2')
    await page.getByRole('button', { name: 'Receive' }).click()
    await page.getByText('2 received').waitFor()
    expect(await isShown(page.getByRole('button', { name: 'Print labels' }))).toBe(true)

    await scan(page, `01${gtin}17350200${'10'}${lot}`)
    await page.getByText('Is this more of it, or the same delivery again?').waitFor()
    expect(await page.getByRole('button', { name: 'Receive' }).isDisabled()).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    await page.getByLabel('I have checked').check()
    await page.getByRole('button', { name: 'Receive' }).click()
    await page.getByText('1 received').waitFor()
    const { items } = await get<{ items: { onHand: { sealed: number }[] }[] }>(
      page.context(),
      `/v1/lots?lotNumber=${lot}`,
    )
    expect(items[0]?.onHand[0]?.sealed).toBe(3)
  })

  it('names a wrong check digit', async () => {
    const page = await openAs('parts')
    await visit(page, `/stock/receive?shop=${world.shop.id}`)
    const wrong = `${gtin.slice(0, -1)}${(Number(gtin.at(-1)) + 1) % 10}`
    await scan(page, wrong)
    expect(await isShown(page.getByText(`The check digit of ${wrong} is wrong`).first())).toBe(true)
  })

  it('reads a photo of a DataMatrix with the decoder that comes from our own address', async () => {
    const page = await openAs('parts', { size: PHONE })
    const lot = `P${unique()}`
    const png = await bwipjs.toBuffer({
      bcid: 'gs1datamatrix',
      text: `(01)${gtin}(17)350200(10)${lot}`,
      scale: 6,
      padding: 20,
      backgroundcolor: 'FFFFFF',
    })
    await withoutErrors(page, async () => {
      await visit(page, `/stock/receive?shop=${world.shop.id}`)
      await page.getByRole('button', { name: 'Scan with the camera' }).click()
      const chooser = page.waitForEvent('filechooser')
      await page.getByRole('button', { name: 'Take or choose a photo' }).click()
      await (await chooser).setFiles({ name: 'label.png', mimeType: 'image/png', buffer: png })
      await expect.poll(() => page.getByLabel('Lot number').inputValue(), { timeout: 20_000 }).toBe(lot)
    })
  })

  it('opens a cartridge from its own label, in the head of any screen and by the address on it', async () => {
    const page = await openAs('parts')
    const { code, id } = world.cartridges[0]!
    await visit(page, `/alerts?shop=${world.shop.id}`)
    await page.getByLabel('Scan or type a label').fill(code.toLowerCase())
    await page.keyboard.press('Enter')
    await page.waitForURL(new RegExp(`/stock/cartridges/${id}`))
    await page.goto(`/c/${code}`)
    await page.waitForURL(new RegExp(`/stock/cartridges/${id}`))
    await page.getByRole('button', { name: 'Print label' }).click()
    expect(await page.getByRole('link', { name: 'Open the PDF' }).getAttribute('href')).toContain(
      `/v1/labels.pdf?cartridgeId=${id}&sheet=letter-3x10&start=1`,
    )
    expect(await accessibilityFaults(page)).toEqual([])
  })
})
