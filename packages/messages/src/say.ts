import type { MessageKey } from './keys.ts'
import { LANGUAGES } from './languages.ts'
import type { Message, Param, ParamsOf, Part, RichParamsOf } from './param.ts'
import { fill, fillParts, plainNumber } from './patterns.ts'
import { differenceText, lengthText, shareText, temperatureText, volumeText } from './quantity.ts'
import type { Reader } from './reader.ts'
import { dayText, instantText, minutesText } from './time.ts'

const CONJUNCTION = { and: 'conjunction', or: 'disjunction' } as const

/** A value in the reader's language and units. */
export function paramText(reader: Reader, param: Param): string {
  if (typeof param === 'string') return param
  if (typeof param === 'number') return plainNumber(reader.language, param)
  if ('instant' in param)
    return instantText(
      param.zone === undefined ? reader : { ...reader, zone: param.zone },
      Date.parse(param.instant),
      param.style,
    )
  if ('day' in param) return dayText(reader.language, param.day)
  if ('celsius' in param)
    return temperatureText(inUnitOf(reader, param), param.celsius, param.digits, param.round)
  if ('celsiusDifference' in param)
    return differenceText(inUnitOf(reader, param), param.celsiusDifference, param.digits, param.round)
  if ('millilitres' in param) return volumeText(reader, param.millilitres, param.digits, param.round)
  if ('millimetres' in param) return lengthText(reader, param.millimetres, param.digits, param.round)
  if ('minutes' in param && param.about && param.minutes >= 90) return `${Math.round(param.minutes / 60)} h`
  if ('minutes' in param) return minutesText(reader.language, param.minutes, param.round)
  if ('share' in param) return shareText(reader, param.share, param.digits, param.round)
  if ('message' in param) return say(reader, param.message)
  const texts = param.list.map((each) => paramText(reader, each))
  if (param.join === 'plain') return texts.join(', ')
  if (param.join === 'semicolon') return texts.join('; ')
  if (param.join === 'sentences') return texts.join('. ')
  return new Intl.ListFormat(LANGUAGES[reader.language].locale, {
    type: CONJUNCTION[param.join ?? 'and'],
  }).format(texts)
}

type Unit = Reader['temperature']

function inUnitOf(
  reader: Reader,
  { shopUnit, unit }: { readonly shopUnit?: Unit; readonly unit?: Unit },
): Reader {
  const temperature = unit ?? (reader.unitOfShop ? shopUnit : undefined)
  return temperature === undefined ? reader : { ...reader, temperature }
}

/** The rest of the arguments of `say` after a key: its parameters, where it has any. */
export type ParamsRest<Key extends MessageKey> =
  Record<never, never> extends ParamsOf<Key> ? [params?: ParamsOf<Key>] : [params: ParamsOf<Key>]

/** A message of known key as data, its parameters held against the key's pattern by the types. */
export function message<Key extends MessageKey>(code: Key, ...[params]: ParamsRest<Key>): Message {
  return { code, params: (params ?? {}) as Message['params'] }
}

/**
 * What a message says to a reader: in his language, his units and on his clock. A key that the loaded catalogue lacks
 * is shown in English, or itself.
 */
export function say(reader: Reader, message: Message): string
export function say<Key extends MessageKey>(reader: Reader, key: Key, ...params: ParamsRest<Key>): string
export function say(reader: Reader, what: Message | MessageKey, given: Message['params'] = {}): string {
  const { code, params } = typeof what === 'string' ? { code: what, params: given } : what
  const values: Record<string, string | number> = {}
  // Numbers stay numbers: plural forms count them.
  for (const [name, param] of Object.entries(params))
    values[name] = typeof param === 'number' ? param : paramText(reader, param)
  return fill(reader.language, code, values)
}

/**
 * The pieces of a sentence that holds more than text, in the language's own order: a parameter given as a part stands
 * as that part, and what a tag encloses goes through the function of its name.
 */
export function sayRich<Key extends MessageKey, Node extends Part>(
  reader: Reader,
  key: Key,
  given: RichParamsOf<Key, Node>,
): readonly (string | Node)[] {
  const values: Record<string, unknown> = {}
  for (const [name, param] of Object.entries<Param | { part: Node } | (() => Node)>(given))
    values[name] =
      typeof param === 'number' || typeof param === 'function'
        ? param
        : typeof param === 'object' && 'part' in param
          ? param.part
          : paramText(reader, param)
  return fillParts(reader.language, key, values) as readonly (string | Node)[]
}
