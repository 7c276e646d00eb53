import type { areas } from './catalogue/en.ts'
import type { service } from './catalogue/en-service.ts'

export type Areas = typeof areas
export type Area = keyof Areas

type Merged<U> = (U extends unknown ? (each: U) => void : never) extends (all: infer All) => void
  ? All
  : never

/** Every English pattern by its key. */
export type Catalogue = Merged<Areas[Area] | (typeof service)[keyof typeof service]>

/** The name of a message: its area, a point, and what it says. */
export type MessageKey = keyof Catalogue

/** The patterns of an area in another language: the same keys, no more and no fewer. */
export type Translation<Source> = { readonly [Key in keyof Source]: string }

type Digit = '0' | '1' | '2' | '3' | '4' | '5' | '6' | '7' | '8' | '9'
// prettier-ignore
type Letter = 'a'|'b'|'c'|'d'|'e'|'f'|'g'|'h'|'i'|'j'|'k'|'l'|'m'|'n'|'o'|'p'|'q'|'r'|'s'|'t'|'u'|'v'|'w'|'x'|'y'|'z'
type EndsInWord = `${string}${Letter | Uppercase<Letter> | Digit}`

type First<Text extends string> = Text extends `${infer Name}}${string}`
  ? Name extends `${infer Head},${string}`
    ? Head
    : Name
  : never

/** The names of a pattern's arguments: what follows a brace that no letter or digit stands before. */
export type ArgumentsOf<
  Pattern extends string,
  Found extends string = never,
> = Pattern extends `${infer Before}{${infer After}`
  ? ArgumentsOf<After, Before extends EndsInWord ? Found : Found | First<After>>
  : Found

/** The names of a pattern's tags, by their ends: `</link>`. */
export type TagsOf<
  Pattern extends string,
  Found extends string = never,
> = Pattern extends `${string}</${infer Name}>${infer After}` ? TagsOf<After, Found | Name> : Found
