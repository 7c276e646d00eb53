import { expect, it } from 'vitest'
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
import { unique } from './world.ts'

const DAY_MS = 86_400_000
const day = (daysAhead: number) => new Date(Date.now() + daysAhead * DAY_MS).toISOString().slice(0, 10)

describeInBrowser('the register of instruments', () => {
  it('takes an instrument up, records its calibration, and takes it out of use', async () => {
    const page = await openAs('owner')
    const tag = unique()
    const shop = await post<{ id: string }>(page.context(), '/v1/shops', {
      name: `Register ${tag}`,
      timeZone: 'America/Denver',
      temperatureUnit: 'C',
    })
    await visit(page, `/admin/equipment?shop=${shop.id}`)
    await page.getByText('No instrument yet.').waitFor()
    await page.getByRole('button', { name: 'Add instrument' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('Name').fill('Contact probe')
    await dialog.getByLabel('Serial number').fill(tag)
    await dialog.getByLabel('Accuracy').fill('40')
    await dialog.getByRole('button', { name: 'Add', exact: true }).click()
    await dialog.getByText(/must be at most 20/).waitFor()
    await dialog.getByLabel('Accuracy').fill('0.9')
    await dialog.getByRole('button', { name: 'Add', exact: true }).click()

    const row = page.getByRole('row', { name: new RegExp(tag) })
    await row.getByText('Never calibrated').waitFor()
    expect(await isShown(row.getByText('± 0.9 °F'))).toBe(true)
    await row.getByRole('button', { name: 'Calibrated: Contact probe' }).click()
    await dialog.getByLabel('Calibrated until').fill('2098-07-01')
    await dialog.getByRole('button', { name: 'Save' }).click()
    await row.getByText('1 Jul 2098').waitFor()
    await row.getByRole('button', { name: 'Take out of use: Contact probe' }).click()
    await row.getByText('Out of use', { exact: true }).waitFor()
    const { items } = await get<{ items: object[] }>(page.context(), `/v1/shops/${shop.id}/instruments`)
    expect(items).toEqual([
      expect.objectContaining({ serialNumber: tag, calibratedUntil: '2098-07-01', active: false }),
    ])
  })

  it('is read, and not changed, by those who do not run the chain', async () => {
    const page = await openAs('technician')
    await visit(page, '/admin/equipment')
    const table = page.getByRole('table', { name: 'Hand-held instruments' })
    expect(await isShown(table.getByText('Contact probe'))).toBe(true)
    expect(await page.getByRole('button', { name: 'Add instrument' }).count()).toBe(0)
    expect(await table.getByRole('button').count()).toBe(0)
  })
})

describeInBrowser('the qualifications', () => {
  it('are added, shown with their expiry, and ended with a reason', async () => {
    const page = await openAs('owner', { size: PHONE, scheme: 'dark' })
    const evidence = `Invented course ${unique()}`
    await visit(page, '/admin/people')
    await page.getByRole('link', { name: 'Qualifications' }).click()
    await page.getByRole('button', { name: 'Add qualification' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('Who').selectOption({ index: 1 })
    await dialog.getByLabel('Highest safety class').selectOption('S3')
    await dialog.getByLabel('Evidence').fill(evidence)
    await dialog.getByLabel('Issued on').fill(day(-10))
    await dialog.getByLabel('Valid until').fill(day(-20))
    await dialog.getByRole('button', { name: 'Add', exact: true }).click()
    await dialog.getByText(/must not be before/).waitFor()
    await dialog.getByLabel('Valid until').fill(day(20))
    await dialog.getByRole('button', { name: 'Add', exact: true }).click()

    const row = page.getByRole('row', { name: new RegExp(evidence) })
    await row.getByText(/\d+ days left/).waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    await row.getByRole('button', { name: /End S3 of/ }).click()
    await dialog.getByLabel('Why does it end before its day?').fill('Entered for the wrong person')
    await dialog.getByRole('button', { name: 'End it' }).click()
    await row.getByText(/Ended .*: Entered for the wrong person/).waitFor()
    expect(await row.getByRole('button').count()).toBe(0)
  })

  it('are for owners only', async () => {
    const page = await openAs('scheduler')
    await visit(page, '/admin/people')
    expect(await page.getByRole('link', { name: 'Qualifications' }).count()).toBe(0)
    await visit(page, '/admin/qualifications')
    expect(
      await isShown(page.getByText('Only an owner of every shop sees and keeps the qualifications.')),
    ).toBe(true)
    expect(await page.getByRole('button', { name: 'Add qualification' }).count()).toBe(0)
  })
})
