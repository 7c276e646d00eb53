import { expect, it } from 'vitest'
import { describeInBrowser, openAs, PHONE, visit, isShown } from './browser.ts'

describeInBrowser('the overview of all shops', () => {
  it('puts the gravest first, each number a link to what it counts', async () => {
    const page = await openAs('owner')
    await visit(page, '/')
    const findings = page.getByRole('list', { name: 'What needs attention' })
    const first = findings.getByRole('listitem').first()
    expect(await first.innerText()).toMatch(/released before handling strength/)

    const expired = findings.getByRole('link', { name: /expired cartridges? on hand/ })
    const number = Number(/\d+/.exec(await expired.innerText())?.[0])
    expect(number).toBeGreaterThan(0)
    await expired.click()
    await page.getByRole('heading', { name: 'Stock', level: 1 }).waitFor()
    expect(page.url()).toContain('urgency=expired')
    await page.getByText(`${number} cartridge`).waitFor()
  })

  it('narrows to one shop and remembers it', async () => {
    const page = await openAs('owner', { size: PHONE })
    await visit(page, '/')
    await page.getByLabel('Shop in view').selectOption({ label: 'Mill Yard' })
    await page.getByRole('heading', { name: 'Mill Yard', level: 1 }).waitFor()
    await page.getByRole('link', { name: 'Stock' }).click()
    await page.getByText('Mill Yard, expires first on top').waitFor()
    await visit(page, '/')
    expect(await isShown(page.getByRole('heading', { name: 'Mill Yard', level: 1 }))).toBe(true)
  })
})
