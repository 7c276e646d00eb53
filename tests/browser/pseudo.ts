import { register, say, type MessageKey, type Reader } from '@clampclock/messages'
import { areas } from '../../packages/messages/src/catalogue/en.ts'
import { pseudo } from '../../packages/messages/src/pseudo.ts'
import type { Page } from 'playwright-core'
import { openAs, type Role } from './browser.ts'

/** Units, formats, columns of a table, time zones, names of languages and the program's name are the same in every language. */
const NO_WORDS =
  /number,vehicle\S*|\b[A-Z]\w+\/\w+\b|autosize measurement|\b(English|Español|Clampclock|CSV|PDF|GTIN|VIN|EPCIS|UTC|min|mL|mm|fl oz|[AP]M|d|h|S[1-4]|https?)\b/g

// As text: the tests' own types know no document.
const TEXTS = `(() => {
  const found = new Set()
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode())
    if (node.parentElement?.closest('script, style, noscript, textarea') === null)
      // A sentence with a link or a time in it: its own text, what it encloses left out.
      found.add([...node.parentElement.childNodes].map((each) => (each.nodeType === 3 ? each.textContent : ' ')).join(''))
  for (const element of document.body.querySelectorAll('[aria-label], [title], [placeholder], [alt]'))
    for (const name of ['aria-label', 'title', 'placeholder', 'alt']) found.add(element.getAttribute(name) ?? '')
  return [...found]
})()`
// What only a screen reader says has one pixel.
const CUT_OFF = `(() => {
  const found = []
  if (document.documentElement.scrollWidth > innerWidth) {
    const scrolls = (element) =>
      element !== document.body && (getComputedStyle(element).overflowX !== 'visible' || scrolls(element.parentElement))
    const wide = [...document.body.querySelectorAll('*')].filter(
      (element) => element.getBoundingClientRect().right > innerWidth + 1 && !scrolls(element.parentElement),
    )
    found.push('the page is wider than its window: ' + wide.slice(-2).map((element) => element.textContent.slice(0, 40)).join(' | '))
  }
  for (const element of document.body.querySelectorAll('*')) {
    const isText = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent.includes('⟦'))
    const isClipped = ['hidden', 'clip'].includes(getComputedStyle(element).overflowX)
    if (isText && isClipped && element.clientWidth > 1 && element.scrollWidth > element.clientWidth + 1)
      found.push(element.textContent)
  }
  return found
})()`

const TWO_FRAMES =
  'new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 50))))'

/** What a screen shows and says that comes neither from the catalogue nor from the service's answers. */
export async function outside(page: Page, answers: () => Promise<string>): Promise<string[]> {
  const texts = await page.evaluate<string[]>(TEXTS)
  // After the texts: whatever they come from has been heard by now.
  const heard = await answers()
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
      .map((word) => word.replaceAll(/^[.'-]+|[.'-]+$/g, ''))
      .some((word) => /[A-Za-z]{2}/.test(word) && !heard.includes(word.toLowerCase()))
  })
}

export async function openPseudo(role: Role): Promise<{ page: Page; answers: () => Promise<string> }> {
  const page = await openAs(role)
  await page.addInitScript("sessionStorage.setItem('clampclock.words', 'pseudo')")
  const heard: Promise<string>[] = []
  page.on('response', (response) => {
    // A stream has no end to wait for, and tells no words.
    const isStream = response.headers()['content-type']?.startsWith('text/event-stream')
    if (!response.url().includes('/v1/') || isStream) return
    heard.push(
      response.text().then(
        (text) => text.toLowerCase(),
        () => '',
      ),
    )
  })
  // A long answer may be on the screen before the test has read it.
  return { page, answers: async () => (await Promise.all(heard)).join('\n') }
}

/** What is cut off in each width, at the usual size of text and at twice that. */
export async function cutOff(page: Page): Promise<string[]> {
  const found: string[] = []
  const cdp = await page.context().newCDPSession(page)
  for (const percent of [100, 200]) {
    // As a person's browser does it: what is measured in em and rem grows, breakpoints among it.
    await cdp.send('Page.setFontSizes', { fontSizes: { standard: (16 * percent) / 100 } })
    for (const width of [1440, 390, 360]) {
      await page.setViewportSize({ width, height: 844 })
      // A plot is drawn anew once it knows its width.
      await page.evaluate(TWO_FRAMES)
      const texts = await page.evaluate<string[]>(CUT_OFF)
      found.push(...texts.map((text) => `${width} px, ${percent} %: ${text}`))
    }
  }
  await cdp.send('Page.setFontSizes', { fontSizes: { standard: 16 } })
  await page.setViewportSize({ width: 1440, height: 844 })
  return [...new Set(found)]
}

for (const patterns of Object.values(areas)) register('en', pseudo(patterns))

/** What a message says in the language that nobody speaks: the name of a button. */
export function inPseudo(key: MessageKey): string {
  return say({ language: 'en' } as Reader, { code: key, params: {} })
}
