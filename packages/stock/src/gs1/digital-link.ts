import { applicationIdentifier } from './application-identifiers.ts'
import type { Parsed } from './element-string.ts'
import { valueFault } from './value-fault.ts'

/** The identifier that a link's path begins with, and those that may follow it there (GS1 Digital Link, URI syntax). */
const QUALIFIERS: Readonly<Record<string, readonly string[]>> = {
  '01': ['22', '10', '21', '235'],
  '00': [],
}

/**
 * Parses a GS1 Digital Link: `https://example.com/01/09520123456788/10/LOT1?17=310531`. The stem may have a path of its own.
 * Only links to a trade item or a logistic unit are read: a cartridge has no other.
 *
 * Words of other standards in the query are passed over; a number there that is no identifier is a fault.
 */
export function parseDigitalLink(text: string, currentYear: number): Parsed {
  if (!/^https?:\/\/[^/?#\s]+\//.test(text) && !/^HTTPS?:\/\/[^/?#\s]+\//.test(text))
    return fault('it is no web address')
  let url: URL
  try {
    url = new URL(text)
  } catch {
    return fault('it is no web address')
  }
  const pairs: (readonly [string, string])[] = []
  const path = pathPairs(url.pathname.split('/').slice(1))
  if (typeof path === 'string') return fault(path)
  pairs.push(...path)
  for (const part of url.search.slice(1).split(/[&;]/).filter(Boolean)) {
    const [name = '', value = ''] = part.split('=', 2)
    if (!/^\d+$/.test(name)) continue
    pairs.push([name, value])
  }
  return collect(pairs, currentYear)
}

/** The pairs of the path from its first key on, or what is wrong with it. */
function pathPairs(segments: readonly string[]): (readonly [string, string])[] | string {
  const start = segments.findLastIndex(
    (segment, i) => segment in QUALIFIERS && (segments.length - i) % 2 === 0,
  )
  const key = segments[start]
  if (start === -1 || key === undefined) return 'its path has no GS1 key, such as /01/ and a GTIN'
  const allowed = QUALIFIERS[key] ?? []
  const pairs: (readonly [string, string])[] = []
  let reached = -1
  for (let i = start; i < segments.length; i += 2) {
    const name = segments[i] ?? ''
    const place = allowed.indexOf(name)
    if (i > start && place <= reached) return `/${name}/ may not stand there in the path`
    if (i > start) reached = place
    pairs.push([name, segments[i + 1] ?? ''])
  }
  return pairs
}

function collect(pairs: readonly (readonly [string, string])[], currentYear: number): Parsed {
  const elements = new Map<string, string>()
  for (const [ai, encoded] of pairs) {
    const identifier = applicationIdentifier(ai)
    if (!identifier) return fault(`'${ai}' is no GS1 application identifier`)
    let value: string
    try {
      value = decodeURIComponent(encoded)
    } catch {
      return fault(`(${ai}) is badly encoded`)
    }
    // Shorter GTINs may stand in a link as they are printed.
    if (ai === '01' && /^(\d{8}|\d{12})$/.test(value)) value = value.padStart(14, '0')
    const wrong = valueFault(identifier, value, currentYear)
    if (wrong) return fault(wrong)
    if (elements.has(ai) && elements.get(ai) !== value)
      return fault(`(${ai}) stands in the link twice, with different values`)
    elements.set(ai, value)
  }
  return { kind: 'elements', elements }
}

function fault(message: string): Parsed {
  return { kind: 'fault', message }
}
