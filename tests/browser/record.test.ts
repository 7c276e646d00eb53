import { expect, it } from 'vitest'
import {
  accessibilityFaults,
  describeInBrowser,
  isShown,
  openAs,
  PHONE,
  sidewaysPx,
  visit,
  withoutErrors,
} from './browser.ts'
import { makeJob, makeWorld, startBond } from './world.ts'

describeInBrowser('the record of a bond', () => {
  it('is found on the job, shows what proves the joint, and comes as a PDF', async () => {
    const world = await makeWorld()
    const { order, joint } = await makeJob(world)
    await startBond(world, joint)
    const page = await openAs('viewer', { size: PHONE, scheme: 'dark' })
    await visit(page, `/jobs/${order.id}`)
    await page.getByText('How this was worked out').click()
    await withoutErrors(page, async () => {
      await page.getByRole('link', { name: 'Bond record of attempt 1' }).click()
      await page.getByRole('heading', { name: 'Record of Outer sill, left', level: 1 }).waitFor()
    })
    expect(await isShown(page.getByText(/chain of its entries is intact/))).toBe(true)
    const applied = page.getByRole('region', { name: 'As it was applied' })
    expect(await isShown(applied.getByText(/Invented manual 7, revision B/))).toBe(true)
    expect(await isShown(applied.getByText(new RegExp(`of lot ${world.lotNumber}`)))).toBe(true)
    const entries = page.getByRole('table', { name: 'Entries of Outer sill, left' })
    expect(await isShown(entries.getByRole('cell', { name: 'Applied', exact: true }))).toBe(true)
    await page.locator('figure [data-line]').first().waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)

    const href = await page.getByRole('link', { name: 'Record as PDF' }).getAttribute('href')
    const pdf = await page.context().request.get(href ?? '')
    expect(pdf.headers()['content-type']).toContain('application/pdf')
    expect((await pdf.body()).subarray(0, 5).toString()).toBe('%PDF-')
  })
})
