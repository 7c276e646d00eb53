import type { ArgumentsOf, Catalogue, MessageKey, TagsOf } from './keys.ts'

/** Which way a value is rounded: a wait up, time left down, so that what is shown never promises too much. */
export type Rounding = 'nearest' | 'up' | 'down'

interface Rounded {
  readonly round?: Rounding
  /** Decimals shown. */
  readonly digits?: number
}

/**
 * `clock` 14:05, `day` Wed 25 Nov, `dayClock` both, `weekdayClock` Wed 14:05, `date` 25 Nov 2026, `full` the date with the
 * clock.
 */
export type InstantStyle = 'clock' | 'day' | 'dayClock' | 'weekdayClock' | 'date' | 'full'

interface OfShop {
  /** The unit of the shop that a temperature is of: for whoever has chosen none. */
  readonly shopUnit?: 'C' | 'F'
  /** What is told is how somebody put it: everybody is shown it in that unit. */
  readonly unit?: 'C' | 'F'
}

/** A value that a message holds, as data: it becomes text in the reader's language and units, its unit beside it. */
export type Param =
  | string
  | number
  /** ISO 8601; shown on the clock of its shop (`zone`, IANA), else of the reader's zone, `dayClock` unless told. */
  | { readonly instant: string; readonly style?: InstantStyle; readonly zone?: string }
  /** A day of the calendar, YYYY-MM-DD; it belongs to no zone. */
  | { readonly day: string }
  | ({ readonly celsius: number } & Rounded & OfShop)
  /** A difference of temperatures: no offset. */
  | ({ readonly celsiusDifference: number } & Rounded & OfShop)
  | ({ readonly millilitres: number } & Rounded)
  | ({ readonly millimetres: number } & Rounded)
  /** `about`: in whole hours from an hour and a half on. */
  | { readonly minutes: number; readonly round?: Rounding; readonly about?: true }
  /** 0 to 1, shown as a percentage. */
  | ({ readonly share: number } & Rounded)
  | { readonly message: Message }
  /** `plain` only sets commas, `sentences` points. */
  | { readonly list: readonly Param[]; readonly join?: 'and' | 'or' | 'plain' | 'semicolon' | 'sentences' }

/** What is said, as data: it can be kept, sent and compared, and is put into words for each reader anew. */
export interface Message {
  readonly code: MessageKey
  readonly params: Readonly<Record<string, Param>>
}

type Counted<
  Pattern extends string,
  Name extends string,
> = Pattern extends `${string}{${Name}, ${'plural' | 'selectordinal' | 'number'},${string}` ? true : false

type PatternOf<Key extends MessageKey> = Catalogue[Key] & string

/**
 * The parameters that a key's pattern asks for: a number where it counts, anything else where it only shows. A pattern
 * with tags is no text: it has a parameter that nothing can be given for, and is said by `sayRich`.
 */
export type ParamsOf<Key extends MessageKey> = {
  readonly [Name in ArgumentsOf<PatternOf<Key>>]: Counted<PatternOf<Key>, Name> extends true ? number : Param
} & { readonly [Tag in TagsOf<PatternOf<Key>>]: never }

/** Something that stands in a sentence beside its text: an element of whatever draws it. */
export type Part = object

/** What a pattern with tags asks for: its parameters, of which any may be shown by a part, and what becomes of each tag. */
export type RichParamsOf<Key extends MessageKey, Node extends Part> = {
  readonly [Name in ArgumentsOf<PatternOf<Key>>]: Counted<PatternOf<Key>, Name> extends true
    ? number
    : Param | { readonly part: Node }
} & { readonly [Tag in TagsOf<PatternOf<Key>>]: (children: readonly (string | Node)[]) => Node }

/** A sentence: what it says, as data, or text as somebody wrote it. */
export type Told = string | Message
