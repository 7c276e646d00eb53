import { expect, it } from 'vitest'
import { accessibilityFaults, DESK, describeInBrowser, openAs, PHONE, sidewaysPx, visit } from './browser.ts'

const NAME = /Odalys|Owner/

describeInBrowser('the account menu', () => {
  it.each([
    ['at a desk', DESK],
    ['on a phone', PHONE],
  ] as const)('%s: is opened by keyboard, is without faults, and gives the focus back', async (_, size) => {
    const page = await openAs('owner', { size })
    await visit(page, '/overview')
    const button = page.getByRole('button', { name: NAME })
    await button.focus()
    await page.keyboard.press('Enter')
    const items = page.getByRole('menu').locator('[role^=menuitem]')
    await items.first().waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    const box = (await page.getByRole('menu').boundingBox())!
    const { width, height } = page.viewportSize()!
    expect(box.x).toBeGreaterThanOrEqual(0)
    expect(box.y).toBeGreaterThanOrEqual(0)
    expect(box.x + box.width).toBeLessThanOrEqual(width)
    expect(box.y + box.height).toBeLessThanOrEqual(height)
    await page.keyboard.press('Escape')
    await items.first().waitFor({ state: 'detached' })
    await expect.poll(() => page.evaluate('document.activeElement?.textContent')).toMatch(NAME)
  })
})
