import { beforeAll, expect, it } from 'vitest'
import {
  accessibilityFaults,
  DESK,
  describeInBrowser,
  isShown,
  openAs,
  PHONE,
  sidewaysPx,
  visit,
} from './browser.ts'
import { makeWorld, type World } from './world.ts'

interface Sent {
  readonly points: readonly { readonly temperatureC: number; readonly handlingTimeMinutes: number }[]
  readonly confirmed: readonly string[]
}

describeInBrowser('a data sheet', () => {
  let world: World
  beforeAll(async () => {
    world = await makeWorld()
  })

  it('is typed in the units of the print, and asked about where it is twice as fast as the last', async () => {
    const page = await openAs('owner', { size: DESK })
    const sent: Sent[] = []
    page.on('request', (request) => {
      if (request.method() === 'POST' && request.url().endsWith('/sheets'))
        sent.push(request.postDataJSON() as Sent)
    })
    await visit(page, `/products/${world.product.id}/sheet`)
    await page.getByLabel('Revision').fill('B')
    await page.getByLabel('Issued on').fill('2026-01-01')
    const units = page.getByLabel('Unit', { exact: true })
    await units.nth(0).selectOption('°C')
    await page.getByLabel('Metal at').fill('23')
    await page.getByLabel('Work time').fill('20')
    await units.nth(2).selectOption('h')
    await page.getByLabel('Handling').fill('1.5')
    // What is in a field stays what it is when its unit changes.
    await units.nth(2).selectOption('min')
    expect(await page.getByLabel('Handling').inputValue()).toBe('90')
    await page.getByLabel('Full cure').fill('1440')
    const limits = { 'Application, lowest': '15', 'Application, highest': '32', 'Cures at all from': '8' }
    const others = {
      'Highest accelerated cure': '80',
      'Service range, lowest': '-40',
      'Service range, highest': '120',
    }
    for (const [index, [label, value]] of Object.entries({ ...limits, ...others }).entries()) {
      await units.nth(4 + index).selectOption('°C')
      await page.getByLabel(label).fill(value)
    }
    await page.getByRole('button', { name: 'Record revision' }).click()
    const question = page.getByRole('alert').filter({ hasText: 'Compare with the printed sheet' })
    expect(await isShown(question.getByText(/more than twice as fast/).first())).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    await page.setViewportSize(PHONE)
    expect(await sidewaysPx(page)).toBe(0)
    expect(sent[0]!.points).toMatchObject([{ temperatureC: 23, handlingTimeMinutes: 90 }])
    // What was typed is still there, and another figure is asked about anew.
    await page.getByLabel('Handling').fill('85')
    await question.waitFor({ state: 'detached' })
    await page.getByRole('button', { name: 'Record revision' }).click()
    await question.getByRole('button', { name: 'The sheet says so' }).click()
    await page.getByRole('heading', { name: world.product.name, level: 1 }).waitFor()
    expect(sent.map(({ confirmed }) => confirmed)).toEqual([[], [], ['muchFaster']])
  })

  it('waits for a second person, who sees what it changes and what looked mistyped, and approves it', async () => {
    const page = await openAs('owner', { size: DESK })
    await visit(page, `/products/${world.product.id}`)
    const waiting = page.getByRole('region', { name: 'Revision B waits for a second person' })
    expect(await isShown(waiting.getByText(/more than twice as fast/).first())).toBe(true)
    // Who recorded it has to look again, and is refused while somebody else could.
    expect(await waiting.getByRole('button', { name: 'Approve B' }).isDisabled()).toBe(true)
    await waiting.getByRole('checkbox').check()
    await waiting.getByRole('button', { name: 'Approve B' }).click()
    expect(await isShown(waiting.getByText(/it takes somebody else to approve it/).first())).toBe(true)

    // The print goes with it, judged by its bytes.
    const file = (text: string) => ({
      name: 'maker.pdf',
      mimeType: 'application/pdf',
      buffer: Buffer.from(text),
    })
    await waiting.locator('input[type=file]').setInputFiles(file('a letter'))
    await waiting.getByText('is no PDF').waitFor()
    await waiting.locator('input[type=file]').setInputFiles(file('%PDF-1.7 %%EOF'))
    const link = waiting.getByRole('link', { name: 'maker.pdf' })
    const answer = await page.request.get((await link.getAttribute('href'))!)
    expect(await answer.text()).toBe('%PDF-1.7 %%EOF')

    const other = await openAs('parts', { size: PHONE })
    await visit(other, `/products/${world.product.id}`)
    const proposal = other.getByRole('region', { name: 'Revision B waits for a second person' })
    const row = proposal.getByRole('row', { name: /Handling strength at/ }).first()
    expect(await row.textContent()).toMatch(/4\sh 00\smin.*1\sh 25\smin.*Faster/)
    expect(await accessibilityFaults(other)).toEqual([])
    expect(await sidewaysPx(other)).toBe(0)
    expect(await isShown(proposal.getByRole('link', { name: 'maker.pdf' }))).toBe(true)
    await proposal.getByRole('button', { name: 'Approve B' }).click()
    await proposal.waitFor({ state: 'detached' })
    const history = other.getByRole('region', { name: 'Revisions of the sheet' })
    const counts = history.getByRole('row', { name: /Counts now/ })
    expect(await counts.textContent()).toMatch(/^B.*Approved .*Petra Quillfeather/)
    // The other screen follows by itself.
    await waiting.waitFor({ state: 'detached' })
  })
})
