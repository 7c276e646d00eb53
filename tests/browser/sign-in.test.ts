import { expect, it } from 'vitest'
import {
  accessibilityFaults,
  demoPerson,
  describeInBrowser,
  openPage,
  PHONE,
  visit,
  isShown,
} from './browser.ts'

describeInBrowser('signing in', () => {
  it('asks who one is, says what was wrong, and then opens the page that was asked for', async () => {
    const page = await openPage()
    await visit(page, '/alerts')
    expect(await page.title()).toBe('Sign in · Clampclock')
    const { email, password } = await demoPerson(page.context(), 'parts')
    await page.getByLabel('E-mail').fill(email)
    await page.getByLabel('Password', { exact: false }).first().fill('not the password')
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    await page.getByRole('alert').getByText('The e-mail address or the password is wrong').waitFor()
    expect(await page.getByLabel('E-mail').inputValue()).toBe(email)

    await page.getByLabel('Password', { exact: false }).first().fill(password)
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    await page.getByRole('heading', { name: 'Alerts', level: 1 }).waitFor()
    expect(await page.title()).toBe('Alerts · Clampclock')
  })

  it('offers the demo people, and lets one out again', async () => {
    const page = await openPage({ size: PHONE })
    await visit(page, '/')
    await page.getByRole('button', { name: /Technician/ }).click()
    await page.getByRole('navigation', { name: 'Main, phone' }).waitFor()
    await page.getByRole('button', { name: /Tamsin/ }).click()
    await page.getByRole('menuitem', { name: 'Sign out' }).click()
    expect(await isShown(page.getByRole('button', { name: 'Sign in', exact: true }))).toBe(true)
  })

  it('asks again over the screen when the sign-in runs out, and sends what was pressed once', async () => {
    const page = await openPage()
    await visit(page, '/')
    await page.getByRole('button', { name: /Parts manager/ }).click()
    await page.getByRole('heading', { level: 1 }).waitFor()
    await page.getByRole('link', { name: 'Stock' }).click()
    await page.getByRole('link', { name: 'Receive' }).click()
    await page.getByLabel('Lot number').fill('KEEP-ME')
    await page.getByLabel('Product').selectOption({ index: 1 })
    await page.getByLabel('Printed expiry').fill('2035-01-31')
    await page.context().clearCookies()
    await page.getByRole('button', { name: 'Receive' }).click()
    const dialog = page.getByRole('dialog', { name: 'Sign in again' })
    await dialog.getByRole('button', { name: /Parts manager/ }).click()
    await dialog.waitFor({ state: 'detached' })
    // What was pressed goes in by itself, and the next line is empty for the next lot.
    await page.getByRole('status').getByText('Lot KEEP-ME of').waitFor()
    expect(await page.getByLabel('Lot number').inputValue()).toBe('')
    const { items } = (await (await page.context().request.get('/v1/lots?lotNumber=KEEP-ME')).json()) as {
      items: { lotNumber: string }[]
    }
    expect(items.map(({ lotNumber }) => lotNumber)).toEqual(['KEEP-ME'])
  })

  it.each(['light', 'dark'] as const)('has no accessibility fault in %s colours', async (scheme) => {
    const page = await openPage({ scheme })
    await visit(page, '/')
    expect(await accessibilityFaults(page)).toEqual([])
  })
})
