import { expect, it } from 'vitest'
import { accessibilityFaults, describeInBrowser, PHONE, sidewaysPx, visit } from './browser.ts'
import { makeJob, makeWorld } from './world.ts'

describeInBrowser('help beside the thing', () => {
  it('is opened, read and closed by keyboard, gives the focus back, and leads to all terms', async () => {
    const world = await makeWorld()
    const { order } = await makeJob(world)
    const { owner } = world
    await owner.setViewportSize(PHONE)
    await visit(owner, `/jobs/${order.id}`)
    const button = owner.getByRole('button', { name: 'What it means: S3: discomfort or some loss' })
    // At the lower edge of the screen it opens upwards.
    await owner.evaluate(
      `document.querySelector('[aria-label^="What it means: S3"]').scrollIntoView({ block: 'end' })`,
    )
    await button.focus()
    await owner.keyboard.press('Enter')
    const meaning = owner.getByText('What happens if the joint fails: danger to life', { exact: false })
    await meaning.waitFor()
    const { y, height } = (await meaning.boundingBox())!
    expect([y >= 0, y + height <= PHONE.height]).toEqual([true, true])
    expect(await sidewaysPx(owner)).toBe(0)
    expect(await accessibilityFaults(owner)).toEqual([])

    await owner.keyboard.press('Escape')
    await meaning.waitFor({ state: 'hidden' })
    expect(await owner.evaluate<string>('document.activeElement.getAttribute("aria-label")')).toBe(
      await button.getAttribute('aria-label'),
    )

    await owner.keyboard.press('Enter')
    await owner.getByRole('link', { name: 'All terms' }).click()
    await owner.getByRole('heading', { name: 'What the words mean', level: 1 }).waitFor()
    expect(new URL(owner.url()).hash).toBe('#safetyClass')
    expect(await accessibilityFaults(owner)).toEqual([])
  })
})
