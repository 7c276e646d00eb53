import { expect, it } from 'vitest'
import { accessibilityFaults, DESK, describeInBrowser, openAs, PHONE, sidewaysPx, visit } from './browser.ts'

describeInBrowser('a menu', () => {
  it.each([
    ['account, at a desk', DESK, /Odalys|Owner/],
    ['account, on a phone', PHONE, /Odalys|Owner/],
    ['further places, on a phone', PHONE, 'More'],
  ] as const)(
    '%s: is opened by keyboard, is without faults, and gives the focus back',
    async (_, size, name) => {
      const page = await openAs('owner', { size })
      await visit(page, '/overview')
      const button = page.getByRole('button', { name }).first()
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
      await page.screenshot({
        path: `/tmp/menu-${size.width}-${String(name).slice(0, 4).replace('/', '')}.png`,
      })
      await page.keyboard.press('Escape')
      await items.first().waitFor({ state: 'detached' })
      await expect.poll(() => page.evaluate('document.activeElement?.textContent')).toMatch(name)
    },
  )
})
