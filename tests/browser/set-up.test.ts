import { expect, it } from 'vitest'
import { describeInBrowser, get, isShown, openAs, openPage, post, visit } from './browser.ts'
import { unique } from './world.ts'

describeInBrowser('the owner', () => {
  it('adds a shop, a bay and a person, who then sees that shop only', async () => {
    const page = await openAs('owner')
    const tag = unique()
    await visit(page, '/admin/shops')
    await page.getByRole('button', { name: 'Add shop' }).click()
    await page.getByLabel('Name').fill(`Shop ${tag}`)
    await page.getByRole('combobox', { name: 'Time zone' }).fill('Europe/Lisbon')
    await page.getByRole('dialog').getByRole('button', { name: 'Add', exact: true }).click()
    await page.getByRole('cell', { name: `Shop ${tag}`, exact: true }).waitFor()

    await page.getByLabel('Shop in view').selectOption({ label: `Shop ${tag}` })
    await page.getByRole('link', { name: 'Bays and equipment' }).click()
    await page.getByRole('button', { name: 'Add', exact: true }).click()
    await page.getByLabel('Name').fill('Only bay')
    await page.getByRole('dialog').getByRole('button', { name: 'Add', exact: true }).click()
    await page.getByRole('cell', { name: 'Only bay', exact: true }).waitFor()

    await page.getByRole('link', { name: 'People' }).click()
    await page.getByRole('button', { name: 'Add person' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('Name').fill(`Person ${tag}`)
    await dialog.getByLabel('E-mail').fill(`${tag.toLowerCase()}@invented.example`)
    await dialog.getByLabel('First password').fill('short')
    await dialog.getByLabel('In', { exact: true }).selectOption({ label: `Shop ${tag}` })
    await dialog.getByRole('button', { name: 'Add', exact: true }).click()
    await dialog.getByText('must be at least 12 characters', { exact: true }).waitFor()
    await dialog.getByLabel('First password').fill('a sentence of some length')
    await dialog.getByRole('button', { name: 'Add', exact: true }).click()
    await page.getByRole('cell', { name: `Person ${tag}`, exact: true }).waitFor()

    const theirs = await openPage()
    await visit(theirs, '/')
    await theirs.getByLabel('E-mail').fill(`${tag.toLowerCase()}@invented.example`)
    await theirs.getByLabel('Password').first().fill('a sentence of some length')
    await theirs.getByRole('button', { name: 'Sign in', exact: true }).click()
    // Whoever added the person knows the first password.
    await theirs.getByLabel('Present password').fill('a sentence of some length')
    await theirs.getByLabel(/^New password(?! again)/).fill('another sentence of one’s own')
    await theirs.getByLabel('New password again').fill('another sentence of one’s own')
    await theirs.getByRole('button', { name: 'Choose', exact: true }).click()
    await theirs.getByRole('heading', { name: 'My work', level: 1 }).waitFor()
    expect(await theirs.getByLabel('Shop in view').count()).toBe(0)
    expect(await theirs.getByRole('link', { name: 'Administration' }).count()).toBe(0)
  })

  it('of one shop keeps the people of that shop, and is offered nothing that counts for the chain', async () => {
    const chain = await openAs('owner')
    const { items: shops } = await get<{ items: { id: string; name: string }[] }>(
      chain.context(),
      '/v1/shops',
    )
    const [mine] = shops
    const email = `${unique().toLowerCase()}@invented.example`
    const password = 'a sentence of some length'
    await post(chain.context(), '/v1/people', {
      name: 'Owner of one shop',
      email,
      password,
      memberships: [{ shopId: mine!.id, role: 'owner' }],
    })
    const page = await openPage()
    await post(page.context(), '/v1/sessions', { email, password })
    await visit(page, '/admin/people')
    const places = page.getByRole('navigation', { name: 'Administration' })
    expect(await places.getByRole('link', { name: 'Tokens' }).count()).toBe(1)
    for (const name of ['Qualifications', 'Webhooks'])
      expect(await places.getByRole('link', { name }).count()).toBe(0)
    const { items: people } = await get<{
      items: { name: string; memberships: { shopId: string | null }[] }[]
    }>(page.context(), '/v1/people')
    const beyond = people.find(({ memberships }) => memberships.every(({ shopId }) => shopId === null))
    expect(await page.getByRole('button', { name: `Change ${beyond!.name}` }).count()).toBe(0)
    await page.getByRole('button', { name: 'Change Owner of one shop' }).click()
    const offered = await page.getByRole('dialog').getByLabel('In', { exact: true }).innerText()
    expect(offered.trim()).toBe(mine!.name)
    await page.keyboard.press('Escape')
    await visit(page, '/products')
    expect(await page.getByRole('link', { name: 'Add product' }).count()).toBe(0)
  })

  it('makes a token whose secret is shown once, and revokes it', async () => {
    const page = await openAs('owner')
    const name = `Token ${unique()}`
    await visit(page, '/admin/tokens')
    await page.getByRole('button', { name: 'Make token' }).click()
    await page.getByLabel('Name').fill(name)
    await page.getByRole('button', { name: 'Make', exact: true }).click()
    expect(await isShown(page.getByText('Copy it now: it is shown this once.'))).toBe(true)
    await page.getByRole('button', { name: `Revoke ${name}` }).click()
    await page.getByRole('button', { name: 'Revoke it' }).click()
    await page
      .getByRole('row', { name: new RegExp(name) })
      .getByText('Revoked')
      .waitFor()
  })

  it('adds a product and its sheet; a sheet that cures slower when warmer is refused', async () => {
    const page = await openAs('owner')
    const name = `Product ${unique()}`
    await visit(page, '/products/new')
    await page.getByLabel('Name').fill(name)
    await page.getByLabel('Mix ratio').fill('2:1')
    await page.getByLabel('Cartridge form').fill('invented form')
    await page.getByLabel('Content').fill('200')
    await page.getByLabel('Open life').fill('30')
    await page.getByLabel('Left in a nozzle').fill('4')
    await page.getByLabel('Lowest').fill('50')
    await page.getByLabel('Highest').fill('77')
    await page.getByLabel('Printed expiry assumes').fill('73')
    await page.getByRole('button', { name: 'Add product' }).click()

    await page.getByLabel('Revision').fill('A')
    await page.getByLabel('Issued on').fill('2024-01-01')
    await page.getByRole('button', { name: 'Another point' }).click()
    const fill = async (label: string, values: readonly string[]) => {
      for (const [index, value] of values.entries())
        await page.getByLabel(label, { exact: false }).nth(index).fill(value)
    }
    await fill('Metal at', ['59', '77'])
    await fill('Work time', ['40', '20'])
    await fill('Handling', ['200', '300'])
    await fill('Full cure', ['2000', '1000'])
    await page.getByLabel('Application, lowest').fill('50')
    await page.getByLabel('Application, highest').fill('90')
    await page.getByLabel('Cures at all from').fill('45')
    await page.getByLabel('Highest accelerated cure').fill('170')
    await page.getByLabel('Service range, lowest').fill('-40')
    await page.getByLabel('Service range, highest').fill('300')
    await page.getByRole('button', { name: 'Record revision' }).click()
    await page
      .getByText(/warm|fall|rise/i)
      .first()
      .waitFor()
    await page.getByLabel('Handling').nth(1).fill('100')
    await page.getByRole('button', { name: 'Record revision' }).click()
    await page.getByRole('heading', { name, level: 1 }).waitFor()
    // It counts once somebody else has compared it with the print.
    const waiting = page.getByRole('table', { name: 'What revision A changes' })
    expect(await isShown(waiting.getByText('Handling strength at 77.0 °F'))).toBe(true)
    expect(await isShown(page.getByText('No data sheet counts yet.'))).toBe(true)
  })
})
