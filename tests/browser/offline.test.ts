import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { accessibilityFaults, describeInBrowser, isShown, openPage, PHONE, sidewaysPx } from './browser.ts'
import { openWay, type Way } from './way-there.ts'

const offline = (page: Page) => page.getByRole('heading', { name: 'Offline', level: 1 })
const atWork = (page: Page) => page.getByRole('heading', { name: 'My work', level: 1 })
const buildOf = (page: Page) =>
  page.evaluate<string | null>(`document.querySelector('meta[name=build]')?.content ?? null`)
/** Whether the new worker has kept all, and waits for the pages of the one before to go. */
const IS_KEPT = `navigator.serviceWorker.getRegistration().then((there) => !there.installing && there.waiting?.state === 'installed')`
const shells = (page: Page) => page.evaluate<string[]>('caches.keys()')

describeInBrowser('the dashboard without network', () => {
  let way: Way
  beforeAll(async () => {
    way = await openWay()
  })
  afterAll(() => way.close())

  /** Signed in as a technician, with the shell kept. */
  async function openKept(): Promise<Page> {
    const page = await openPage({ size: PHONE, from: way.address, keepsShell: true })
    await page.goto('/')
    await page.getByRole('button', { name: /Technician/ }).click()
    await atWork(page).waitFor()
    // Resolves once a worker is active, which it is when all is kept.
    await page.evaluate('navigator.serviceWorker.ready.then(() => null)')
    return page
  }

  it('opens from what is kept, says that it is offline, and goes on by itself', async () => {
    const page = await openKept()
    way.cut()
    await page.reload()
    expect(await isShown(offline(page))).toBe(true)
    expect(await isShown(page.getByText('Leave the clamps on and the vehicle where it is.'))).toBe(true)
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await sidewaysPx(page)).toBe(0)
    // Another address of the dashboard, never opened on this device.
    await page.goto('/stock')
    expect(await isShown(offline(page))).toBe(true)
    way.mend()
    expect(await isShown(page.getByRole('heading', { name: 'Stock', level: 1 }))).toBe(true)
    await page.context().close()
  })

  it('keeps no answer of the service, and lets its own addresses pass', async () => {
    const page = await openKept()
    const kept = await page.evaluate<string[]>(
      `caches.keys().then((names) => Promise.all(names.map((name) => caches.open(name).then((cache) => cache.keys())))).then((all) => all.flat().map(({ url }) => new URL(url).pathname))`,
    )
    expect(kept).toContain('/index.html')
    expect(kept.filter((path) => !/^\/(assets\/[^/]+|index\.html)$/.test(path))).toEqual([])
    way.cut()
    const answers = await page.evaluate<string[]>(
      `Promise.all(['/v1/me', '/v1/me/work', '/health'].map((path) => fetch(path).then(() => 'answered', () => 'silent')))`,
    )
    expect(answers).toEqual(['silent', 'silent', 'silent'])
    way.mend()
    await page.context().close()
  })

  it('takes a new build with the next page, and leaves the open one alone', async () => {
    const page = await openKept()
    const [first] = await shells(page)
    await page.evaluate('window.isStillThis = true')
    way.upgrade('second')
    // As the browser does by itself with the next visit, and once a day.
    await page.evaluate('navigator.serviceWorker.ready.then((there) => there.update()).then(() => null)')
    await expect.poll(() => shells(page), { timeout: 20_000 }).toEqual([first, 'clampclock-shell-second'])
    await expect.poll(() => page.evaluate<boolean>(IS_KEPT), { timeout: 20_000 }).toBe(true)
    expect(await page.evaluate('window.isStillThis')).toBe(true)
    expect(await buildOf(page)).toBe(null)
    await page.reload()
    await atWork(page).waitFor()
    expect(await buildOf(page)).toBe('second')

    way.cut()
    await page.reload()
    await offline(page).waitFor()
    expect(await buildOf(page)).toBe('second')
    way.mend()
    await page.context().close()
  })

  it('can be installed', async () => {
    const page = await openKept()
    const session = await page.context().newCDPSession(page)
    const { errors, data } = await session.send('Page.getAppManifest')
    expect(errors).toEqual([])
    expect(JSON.parse(data ?? '{}')).toMatchObject({
      name: 'Clampclock',
      display: 'standalone',
      start_url: '/',
    })
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
    // The tests' profile is a private one, where a browser installs nothing.
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual(
      [],
    )
    await page.context().close()
  })
})
