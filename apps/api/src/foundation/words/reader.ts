import { isLanguage, readerFrom, type Reader } from '@clampclock/messages'
import { registerAll } from '@clampclock/messages/all'
import type { Preferences } from '@clampclock/contracts'

// Nobody is a reader before there are words.
registerAll()

/**
 * How somebody reads: as that person has chosen, else by the languages that the request asks for, else English. Who names
 * neither units nor a country is shown temperatures in the shop's.
 *
 * @param accepted `Accept-Language` as it came (RFC 9110, 12.5.4).
 */
export function readerOf(preferences: Preferences | null, accepted: string | undefined): Reader {
  return readerFrom(preferences ?? {}, firstKnown(accepted ?? '') ?? 'en')
}

/** For programs, and for what is told where nobody in particular reads: English, in the shop's unit. */
export const NOBODY: Reader = readerOf(null, undefined)

/** The tag that is liked best of those whose language the catalogue has. */
function firstKnown(accepted: string): string | undefined {
  return accepted
    .split(',')
    .map((part) => {
      const [tag = '', ...parameters] = part.trim().split(';')
      const q = parameters.map((each) => /^\s*q=([0-9.]+)\s*$/i.exec(each)?.[1]).find(Boolean)
      return { tag, weight: q === undefined ? 1 : Number(q) }
    })
    .filter(({ tag, weight }) => weight > 0 && isLanguage(tag.split('-')[0]!.toLowerCase()))
    .toSorted((a, b) => b.weight - a.weight)[0]?.tag
}
