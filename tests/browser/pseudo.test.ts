import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { describeInBrowser, openAs, visit, type Role } from './browser.ts'
import { makeJob, makeWorld, startBond } from './world.ts'

/** Screens by their address. */
const SCREENS: readonly (readonly [Role, string])[] = [
  ['technician', '/my-work'],
  ['owner', '/overview'],
  ['owner', '/bays'],
  ['owner', '/jobs'],
  ['owner', '/jobs/new'],
  ['owner', '/schedule'],
  ['owner', '/plan'],
  ['owner', '/plan/figures'],
  ['owner', '/plan/setup'],
  ['owner', '/plan/setup/new'],
  ['owner', '/stock'],
  ['owner', '/stock/receive'],
  ['owner', '/stock/move'],
  ['owner', '/stock/shipments'],
  ['owner', '/stock/counts'],
  ['owner', '/stock/reservations'],
  ['owner', '/stock/lots'],
  ['owner', '/stock/movements'],
  ['owner', '/ordering'],
  ['owner', '/waste'],
  ['owner', '/products'],
  ['owner', '/products/new'],
  ['owner', '/alerts'],
  ['owner', '/admin/people'],
  ['owner', '/admin/qualifications'],
  ['owner', '/admin/tokens'],
  ['owner', '/admin/webhooks'],
  ['owner', '/admin/shops'],
  ['owner', '/admin/ordering'],
  ['owner', '/admin/equipment'],
]

/** Screens on which something is still cut: bars as wide as their time, rows and a table on a phone. The list only shrinks. */
const CUT: ReadonlySet<string> = new Set(['/plan', '/stock', '/stock/reservations'])

/**
 * Screens of which a sentence here and there is not in the catalogue yet (one with a link or a time within), and is shown only
 * at some hours or in some states. The list only shrinks.
 */
const LEFT: ReadonlySet<string> = new Set([
  '/bays',
  '/plan',
  '/plan/figures',
  '/plan/setup',
  '/plan/setup/new',
  '/stock/shipments',
  '/stock/counts',
  '/stock/lots',
  '/ordering',
  '/admin/qualifications',
])

/** Units, formats, columns of a table and the program's name are the same in every language. */
const NO_WORDS =
  /number,vehicle\S*|autosize measurement|\b(Clampclock|CSV|PDF|GTIN|VIN|EPCIS|UTC|min|mL|mm|fl oz|[AP]M|d|h|S[1-4]|https?)\b/g

// As text: the tests' own types know no document.
const TEXTS = `(() => {
  const found = new Set()
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode())
    if (node.parentElement?.closest('script, style, noscript, textarea') === null) found.add(node.textContent)
  for (const element of document.body.querySelectorAll('[aria-label], [title], [placeholder], [alt]'))
    for (const name of ['aria-label', 'title', 'placeholder', 'alt']) found.add(element.getAttribute(name) ?? '')
  return [...found]
})()`
// What only a screen reader says has one pixel.
const CUT_OFF = `(() => {
  const found = document.documentElement.scrollWidth > innerWidth ? ['the page is wider than its window'] : []
  for (const element of document.body.querySelectorAll('*')) {
    const isText = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent.includes('⟦'))
    const isClipped = ['hidden', 'clip'].includes(getComputedStyle(element).overflowX)
    if (isText && isClipped && element.clientWidth > 1 && element.scrollWidth > element.clientWidth + 1)
      found.push(element.textContent)
  }
  return found
})()`

/** What a screen shows and says that comes neither from the catalogue nor from the service's answers. */
async function outside(page: Page, answers: string): Promise<string[]> {
  const texts = await page.evaluate<string[]>(TEXTS)
  return texts.filter((text) => {
    // The marks may lie within each other.
    let rest = text
    for (let before = ''; before !== rest;) {
      before = rest
      rest = rest.replace(/⟦[^⟦⟧]*⟧/g, ' ')
    }
    return rest
      .replace(NO_WORDS, ' ')
      .split(/[^\p{L}\d.'-]+/u)
      .some((word) => /[A-Za-z]{2}/.test(word) && !answers.includes(word.toLowerCase()))
  })
}

async function openPseudo(role: Role): Promise<{ page: Page; answers: () => string }> {
  const page = await openAs(role)
  await page.addInitScript("sessionStorage.setItem('clampclock.words', 'pseudo')")
  const heard: string[] = []
  page.on('response', (response) => {
    if (!response.url().includes('/v1/')) return
    void response
      .text()
      .then((text) => heard.push(text.toLowerCase()))
      .catch(() => undefined)
  })
  return { page, answers: () => heard.join('\n') }
}

describeInBrowser('a language that nobody speaks', () => {
  // A joint of the owner's that is open: its bar stands over every screen, and speaks too.
  beforeAll(async () => {
    const world = await makeWorld()
    await startBond(world, (await makeJob(world)).joint)
  })

  it.each(SCREENS)('is all that %s reads at %s, and nothing is cut', async (role, path) => {
    const { page, answers } = await openPseudo(role)
    await visit(page, path)
    await page.getByRole('heading', { level: 1 }).first().waitFor()
    await page.waitForLoadState('networkidle').catch(() => undefined)
    const said = LEFT.has(path) ? [] : await outside(page, answers())
    const isCut: string[] = []
    for (const width of [1440, 390, 360]) {
      await page.setViewportSize({ width, height: 844 })
      const texts = CUT.has(path) ? [] : await page.evaluate<string[]>(CUT_OFF)
      isCut.push(...texts.map((text) => `${width} px: ${text}`))
    }
    await page.context().close()
    expect({ said, isCut }).toEqual({ said: [], isCut: [] })
  })
})
