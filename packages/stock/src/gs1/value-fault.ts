import type { ApplicationIdentifier, Part } from './application-identifiers.ts'
import { checkDigit } from './check-digit.ts'
import { dateOfYymmdd } from './date.ts'

/** GS1's character sets 82 (X), 39 (Y) and file-safe base 64 (Z). */
const CHARACTERS: Readonly<Record<Part['characters'], RegExp>> = {
  N: /^\d*$/,
  X: /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]*$/,
  Y: /^[#\-/0-9A-Z]*$/,
  Z: /^[A-Za-z0-9_-]*={0,2}$/,
}

/**
 * What is wrong with the value of an identifier, in one sentence; undefined when nothing is. A wrong check digit is
 * named, never guessed.
 */
export function valueFault(
  { ai, parts }: ApplicationIdentifier,
  value: string,
  currentYear: number,
): string | undefined {
  let rest = value
  for (const part of parts) {
    if (rest === '' && part.optional) break
    const taken = rest.slice(0, part.max)
    rest = rest.slice(part.max)
    const fault = partFault(part, taken, currentYear)
    if (fault) return `(${ai}) ${fault}`
  }
  return rest === '' ? undefined : `(${ai}) is too long: '${rest}' is left over`
}

function partFault(part: Part, text: string, currentYear: number): string | undefined {
  if (!CHARACTERS[part.characters].test(text)) return `'${text}' has a character that is not allowed there`
  if (text.length < part.min)
    return text === '' ? 'has no value' : `'${text}' is too short: ${part.min} characters are needed`
  if (part.check) {
    const right = checkDigit(text.slice(0, -1))
    if (right !== Number(text.at(-1)))
      return `'${text}' has check digit ${text.at(-1)}, but ${right} would be right: scan or type it again`
  }
  if (part.date) {
    const date = dateOfYymmdd(text, currentYear)
    if (!date || (part.date === 'dayNeeded' && text.endsWith('00'))) return `'${text}' is no date YYMMDD`
  }
  return undefined
}
