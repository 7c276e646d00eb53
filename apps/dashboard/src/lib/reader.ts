import {
  readerFrom,
  say,
  together as unbroken,
  type Area,
  type MessageKey,
  type ParamsRest,
  type Reader,
} from '@clampclock/messages'
import { loadAreas } from '@clampclock/messages/load'
import { useSyncExternalStore } from 'react'
import { browsersReader } from './preferences.ts'

/** A page has one reader at a time; when he changes, everything is drawn anew. */
let current: Reader = typeof document === 'undefined' ? readerFrom({}, 'en-GB') : browsersReader()
const watchers = new Set<() => void>()

/** What may be on the screen: what is said everywhere, and the areas of screens that were opened. */
const asked = new Set<Area | 'everywhere'>(['everywhere'])

/** Who reads: for whatever is no component. */
export function reader(): Reader {
  return current
}

/** Who reads: his language, units and clock. */
export function useReader(): Reader {
  return useSyncExternalStore((watcher) => {
    watchers.add(watcher)
    return () => watchers.delete(watcher)
  }, reader)
}

/** Has the words of a screen at hand in the reader's language. */
export async function loadWords(areas: readonly Area[]): Promise<void> {
  for (const area of areas) asked.add(area)
  await loadAreas(current.language, areas)
}

/** A part that is loaded when it is needed, with the words that no other part has. */
export async function withWords<Module>(module: Promise<Module>, ...areas: Area[]): Promise<Module> {
  const [loaded] = await Promise.all([module, loadWords(areas)])
  return loaded
}

/** Changes who reads, once the words are there of everything that may be on the screen. */
export async function setReader(next: Reader): Promise<void> {
  await loadAreas(next.language, [...asked])
  current = next
  document.documentElement.lang = next.language
  for (const watcher of watchers) watcher()
}

/** A value and its unit on one line: only a page breaks lines, and elsewhere text is plain. */
export function together(text: string): string {
  return typeof document === 'undefined' ? text : unbroken(text)
}

/** The words of a message, in the reader's language and units. */
export function t<Key extends MessageKey>(key: Key, ...params: ParamsRest<Key>): string {
  return together(say(current, key, ...params))
}
