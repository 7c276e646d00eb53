import { existsSync } from 'node:fs'
import { AxeBuilder } from '@axe-core/playwright'
import { chromium, type Browser, type BrowserContext, type Locator, type Page } from 'playwright-core'
import { afterAll, describe, expect, inject } from 'vitest'

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the service answers, such as http://127.0.0.1:3000; without a slash at the end. */
    baseUrl: string
  }
}

/** The service under test: started by the project's global set-up, or one that runs already. */
export function baseUrl(): string {
  const url = process.env['CLAMPCLOCK_URL'] ?? inject('baseUrl')
  if (typeof url === 'string') return url.replace(/\/$/, '')
  throw new Error('No service to test: start one with `npm start` and set CLAMPCLOCK_URL to its address')
}

const CHROMIUM = [process.env['CHROMIUM_PATH'], '/usr/bin/chromium', '/usr/bin/chromium-browser'].find(
  (path) => path !== undefined && existsSync(path),
)

if (CHROMIUM === undefined) {
  const message =
    'No Chromium found for the browser tests: install one (Debian: apt-get install chromium) or set CHROMIUM_PATH.'
  if (process.env['CI'] === 'true') throw new Error(message)
  console.warn(`${message} They are left out.`)
}

/** A suite that needs a browser: left out, with a message, where there is none; in CI that is a failure. */
// oxlint-disable-next-line vitest/valid-describe-callback, vitest/valid-title -- this makes a suite function
export const describeInBrowser = describe.skipIf(CHROMIUM === undefined)

let launched: Promise<Browser> | undefined

const LAUNCH = {
  executablePath: CHROMIUM ?? '',
  args: [
    '--headless',
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
}

function browser(): Promise<Browser> {
  launched ??= chromium.launch(LAUNCH)
  return launched
}

afterAll(async () => {
  await (await launched)?.close()
  launched = undefined
})

export const DESK = { width: 1440, height: 900 } as const
export const PHONE = { width: 390, height: 844 } as const

/** The demo chain's people by what they do. */
export type Role = 'owner' | 'parts' | 'scheduler' | 'technician' | 'viewer'

export interface Options {
  readonly size?: { readonly width: number; readonly height: number }
  readonly scheme?: 'light' | 'dark'
  /** Another address than the service's own. */
  readonly from?: string
  /** Whether the dashboard may keep its shell. */
  readonly keepsShell?: boolean
}

function contextOptions({ size = DESK, scheme = 'light', from = baseUrl(), keepsShell = false }: Options) {
  return {
    baseURL: from,
    serviceWorkers: keepsShell ? 'allow' : 'block',
    viewport: size,
    colorScheme: scheme,
    hasTouch: size === PHONE,
    reducedMotion: 'reduce',
    // Another zone than any demo shop's: times must be the shop's own all the same.
    timezoneId: 'Pacific/Auckland',
  } as const
}

/** A fresh page of a fresh browser profile, not signed in. */
export async function openPage(options: Options = {}): Promise<Page> {
  const context = await (await browser()).newContext(contextOptions(options))
  context.setDefaultTimeout(20_000)
  return context.newPage()
}

/** A browser of its own whose profile is that folder: what a page keeps there outlasts it. To be closed by the test. */
export async function openProfile(folder: string, options: Options = {}): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(folder, { ...LAUNCH, ...contextOptions(options) })
  context.setDefaultTimeout(20_000)
  return context
}

/** One sign-in per person and file: a person signs in once a day, and the service limits how often one may try. */
const sessions = new Map<Role, Promise<StorageState>>()
type StorageState = Awaited<ReturnType<BrowserContext['storageState']>>

/** A page that is signed in as one of the demo people. */
export async function openAs(role: Role, options: Options = {}): Promise<Page> {
  if (!sessions.has(role)) sessions.set(role, signIn(role))
  const page = await openPage(options)
  const { cookies } = await sessions.get(role)!
  await page.context().addCookies(cookies)
  return page
}

async function signIn(role: Role): Promise<StorageState> {
  const context = (await openPage()).context()
  await post(context, '/v1/sessions', await demoPerson(context, role))
  // The browser's own would do; what the files expect is said.
  const preferences = {
    language: 'en',
    temperature: 'F',
    volume: 'mL',
    length: 'mm',
    clock: '24h',
    firstDay: 1,
  }
  expect((await context.request.put('/v1/me/preferences', { data: preferences })).status()).toBe(200)
  return context.storageState()
}

/** E-mail and password of one of the demo people. */
export async function demoPerson(
  context: BrowserContext,
  role: Role,
): Promise<{ email: string; password: string }> {
  const { people } = await get<{ people: { email: string; password: string }[] }>(context, '/v1/demo')
  const person = people.find(({ email }) => email.startsWith(`${role}@`))
  if (person === undefined) throw new Error(`The demo has nobody who signs in as ${role}`)
  return { email: person.email, password: person.password }
}

/** Sets something up through the API as whoever the context is signed in as. */
export async function post<Answer>(context: BrowserContext, path: string, data: unknown): Promise<Answer> {
  const response = await context.request.post(path, {
    data,
    headers: { 'idempotency-key': `"${crypto.randomUUID()}"` },
  })
  if (!response.ok()) throw new Error(`POST ${path}: ${response.status()} ${await response.text()}`)
  return (await response.json()) as Answer
}

export async function get<Answer>(context: BrowserContext, path: string): Promise<Answer> {
  const response = await context.request.get(path)
  if (!response.ok()) throw new Error(`GET ${path}: ${response.status()} ${await response.text()}`)
  return (await response.json()) as Answer
}

/** Opens a screen and waits until it shows what it is about. */
export async function visit(page: Page, path: string): Promise<void> {
  await page.goto(path)
  await page.locator('h1').first().waitFor()
  // As text: the tests' own types know no document.
  // Asked from outside: the page's content security policy lets nothing be evaluated within.
  while (await page.evaluate<boolean>(`/Loading [^\\n]*…/.test(document.body.innerText)`)) {
    await page.waitForTimeout(50)
  }
}

/** Everything that axe finds against WCAG 2.2 A and AA, by rule and place; empty when there is nothing. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  // From the top: half under the bar that stays, a button is no smaller, but measured as if it were.
  await page.evaluate('window.scrollTo(0, 0)')
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze()
  return violations.flatMap(({ id, nodes }) => {
    const faulty = id === 'target-size' ? nodes.filter(({ html }) => !DRAWN_TO_SCALE.test(html)) : nodes
    return faulty.map(({ target, failureSummary }) => `${id} at ${target.join(' ')}: ${failureSummary}`)
  })
}

/**
 * A bar of the timeline is as wide as its time, and no wider: the exception of WCAG 2.2, 2.5.8 for what is essential. Its
 * dialog, the keyboard and the list on a phone do the same.
 */
const DRAWN_TO_SCALE = /data-drawn-to-scale/

/** Waits until something is on the screen. @returns true, for an `expect` that says so. */
export async function isShown(locator: Locator): Promise<boolean> {
  await locator.waitFor()
  return true
}

/** By how many px the page is wider than the screen: it must never scroll sideways. */
export async function sidewaysPx(page: Page): Promise<number> {
  return page.evaluate<number>('Math.max(0, document.documentElement.scrollWidth - window.innerWidth)')
}

/** Fails when the page threw or logged an error while `act` ran. */
export async function withoutErrors(page: Page, act: () => Promise<void>): Promise<void> {
  const errors: string[] = []
  page.on('pageerror', ({ message }) => errors.push(message))
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text())
  })
  await act()
  expect(errors).toEqual([])
}

/** As a hand scanner does: types into what has the focus, and ends with Enter. Waits until a field has it. */
export async function scan(page: Page, text: string): Promise<void> {
  await page.locator('input:focus').waitFor()
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
}
