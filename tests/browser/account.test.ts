import { expect, it } from 'vitest'
import type { Page } from 'playwright-core'
import { accessibilityFaults, describeInBrowser, openAs, openPage, PHONE, post, visit } from './browser.ts'
import { unique } from './world.ts'

const FIRST = 'a sentence of some length'
const OWN = 'four odd words here'

/** Somebody of his own, so that no other test is signed out. */
async function addPerson(mustChangePassword: boolean): Promise<string> {
  const owner = await openAs('owner')
  const email = `${unique().toLowerCase()}@invented.example`
  const memberships = [{ shopId: null, role: 'viewer' }]
  await post(owner.context(), '/v1/people', {
    name: 'Somebody else',
    email,
    password: FIRST,
    mustChangePassword,
    memberships,
  })
  return email
}

async function signIn(page: Page, email: string, password: string, path: string): Promise<void> {
  await visit(page, path)
  await page.getByLabel('E-mail').fill(email)
  await page.getByLabel('Password').first().fill(password)
  await page.getByRole('button', { name: 'Sign in', exact: true }).click()
}

async function fillNew(page: Page, present: string, password: string, again = password): Promise<void> {
  await page.getByLabel('Present password').fill(present)
  await page.getByLabel(/^New password(?! again)/).fill(password)
  await page.getByLabel('New password again').fill(again)
}

describeInBrowser('one’s own password and sign-ins', () => {
  it('changes the password, beside what is wrong with it, and signs the other device out', async () => {
    const email = await addPerson(false)
    const elsewhere = await openPage({ size: PHONE })
    await signIn(elsewhere, email, FIRST, '/alerts')
    await elsewhere.getByRole('heading', { name: 'Alerts', level: 1 }).waitFor()

    const page = await openPage()
    await signIn(page, email, FIRST, '/alerts')
    await page.getByRole('heading', { name: 'Alerts', level: 1 }).waitFor()
    await page.getByRole('button', { name: /Somebody/ }).click()
    await page.getByRole('menuitem', { name: 'Password and sign-ins' }).click()
    await page.getByRole('heading', { name: 'Password and sign-ins', level: 1 }).waitFor()
    const devices = page.getByRole('list', { name: 'Where you are signed in' }).getByRole('listitem')
    await devices.nth(1).waitFor()
    expect(await devices.count()).toBe(2)

    const change = page.getByRole('button', { name: 'Change password' })
    await fillNew(page, FIRST, OWN, 'something else')
    await change.click()
    await page.getByText('is not the same as above').waitFor()
    await fillNew(page, 'not this one', OWN)
    await change.click()
    await page.getByText('is not the present password').first().waitFor()
    await fillNew(page, FIRST, 'password1234')
    await change.click()
    await page.getByText('is among the passwords that are tried first').first().waitFor()
    await fillNew(page, FIRST, OWN)
    await change.click()
    await page.getByText('The password is changed.').waitFor()
    await devices.nth(1).waitFor({ state: 'detached' })
    expect(await page.getByLabel('Present password').inputValue()).toBe('')
    expect(await accessibilityFaults(page)).toEqual([])

    await elsewhere.reload()
    await elsewhere.getByRole('button', { name: 'Sign in', exact: true }).waitFor()
  })

  it('signs one device out, then every one', async () => {
    const email = await addPerson(false)
    const elsewhere = await openPage({ size: PHONE })
    await signIn(elsewhere, email, FIRST, '/alerts')
    await elsewhere.getByRole('heading', { name: 'Alerts', level: 1 }).waitFor()

    const page = await openPage({ size: PHONE })
    await signIn(page, email, FIRST, '/account')
    const list = page.getByRole('list', { name: 'Where you are signed in' })
    await list.getByRole('button', { name: /^Sign out: .*since/ }).click()
    await list.getByRole('listitem').nth(1).waitFor({ state: 'detached' })
    await list.getByText('This device').waitFor()
    await elsewhere.reload()
    await elsewhere.getByRole('button', { name: 'Sign in', exact: true }).waitFor()

    await page.getByRole('button', { name: 'Sign out everywhere' }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'Sign out everywhere' }).click()
    await page.getByRole('button', { name: 'Sign in', exact: true }).waitFor()
  })

  it('lets in who was given a password once another was chosen, to the page that was asked for', async () => {
    const email = await addPerson(true)
    const page = await openPage({ size: PHONE })
    await signIn(page, email, FIRST, '/alerts')
    await page.getByRole('heading', { name: 'Choose your own password', level: 1 }).waitFor()
    expect(await accessibilityFaults(page)).toEqual([])
    await fillNew(page, FIRST, OWN)
    await page.getByRole('button', { name: 'Choose', exact: true }).click()
    await page.getByRole('heading', { name: 'Alerts', level: 1 }).waitFor()
  })
})
