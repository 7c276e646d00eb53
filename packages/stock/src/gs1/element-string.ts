import { leadingIdentifier } from './application-identifiers.ts'
import { valueFault } from './value-fault.ts'

/** Identifiers and their values as they stand on a label, in its order. */
export type Elements = ReadonlyMap<string, string>

export type Parsed =
  | { readonly kind: 'elements'; readonly elements: Elements }
  | { readonly kind: 'fault'; readonly message: string }

/** FNC1 as a scanner sends it: the group separator. */
export const SEPARATOR = '\u001D'

/**
 * Parses a GS1 element string: identifier, value, identifier, value, with a separator after each value whose length is
 * not predefined. A needless separator and one at the end are taken.
 *
 * @param text Without the symbology identifier and the leading FNC1.
 */
export function parseElementString(text: string, currentYear: number): Parsed {
  const elements = new Map<string, string>()
  let rest = text
  if (rest === '') return fault('the label is empty')
  while (rest !== '') {
    const identifier = leadingIdentifier(rest)
    if (!identifier)
      return fault(`'${printable(rest.slice(0, 4))}' begins with no GS1 application identifier`)
    const { ai, parts, predefined } = identifier
    rest = rest.slice(ai.length)
    const end = rest.indexOf(SEPARATOR)
    const whole = parts.reduce((length, part) => length + part.max, 0)
    const length = predefined && end !== whole ? whole : end === -1 ? rest.length : end
    const value = rest.slice(0, length)
    const wrong = valueFault(identifier, value, currentYear)
    if (wrong) return fault(printable(wrong))
    if (elements.has(ai) && elements.get(ai) !== value)
      return fault(`(${ai}) stands on the label twice, with different values`)
    elements.set(ai, value)
    rest = rest.slice(length)
    if (rest.startsWith(SEPARATOR)) rest = rest.slice(1)
  }
  return { kind: 'elements', elements }
}

function fault(message: string): Parsed {
  return { kind: 'fault', message }
}

function printable(text: string): string {
  return text.replaceAll(SEPARATOR, '␝')
}
