import { message, type Message } from '@clampclock/messages'
import { dictionary } from '@zxcvbn-ts/language-common'
import { ProblemError } from '../problems/problem-error.ts'

/** About 49,000 that leaks have most often, in lower case: shipped with the package, so that no password is asked about anywhere. */
const COMMON: ReadonlySet<string> = new Set(dictionary['passwords-common'])
const SERVICE = 'clampclock'
const FEWEST_SIGNS = 5
/** Of what is left once names are taken out. */
const FEWEST_OF_ONES_OWN = 8
const LIKE_LETTERS: Readonly<Record<string, string>> = {
  '@': 'a',
  '4': 'a',
  '3': 'e',
  '1': 'i',
  '!': 'i',
  '0': 'o',
  $: 's',
  '5': 's',
  '7': 't',
}

/**
 * Refuses what is tried first (NIST SP 800-63B-4, 3.1.1.2: values from breaches, words of the context, repetitions).
 * Length is the contract's.
 *
 * @param about What anybody can know of the person: name, e-mail address.
 * @throws {ProblemError} `invalid-request` about `body.password`, with a fix.
 */
export function requireGoodPassword(password: string, about: readonly string[]): void {
  const fault = faultOf(password.normalize('NFKC').toLowerCase(), about)
  if (fault === null) return
  throw new ProblemError('invalid-request', fault, [
    { code: 'guessable', field: 'body.password', message: fault, fix: message('setup-problem.passwordFix') },
  ])
}

function faultOf(password: string, about: readonly string[]): Message | null {
  if (new Set(password).size < FEWEST_SIGNS) return message('setup-problem.passwordFewSigns')
  if (isCommon(password)) return message('setup-problem.passwordCommon')
  const own = namesIn(about).reduce((left, name) => left.replaceAll(name, ''), password)
  return own !== password && own.replaceAll(/[^\p{L}\p{N}]/gu, '').length < FEWEST_OF_ONES_OWN
    ? message('setup-problem.passwordOfNames')
    : null
}

function isCommon(password: string): boolean {
  const unit = repeatedIn(password)
  if (COMMON.has(password) || COMMON.has(unit)) return true
  const core = unit.replaceAll(/^[^a-z]+|[^a-z]+$/g, '')
  const asLetters = core.replaceAll(/[^a-z]/g, (sign) => LIKE_LETTERS[sign] ?? sign)
  // Where most of it is something else, the word alone gives nothing away.
  return core.length * 2 >= unit.length && (COMMON.has(core) || COMMON.has(asLetters))
}

/** The shortest part that makes the whole by being said again. */
function repeatedIn(text: string): string {
  for (let length = 1; length <= text.length / 2; length += 1) {
    const unit = text.slice(0, length)
    if (text.length % length === 0 && unit.repeat(text.length / length) === text) return unit
  }
  return text
}

function namesIn(about: readonly string[]): string[] {
  const words = about.flatMap((text) =>
    text
      .normalize('NFKC')
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u),
  )
  return [SERVICE, ...words.filter((word) => word.length >= 4)]
}
