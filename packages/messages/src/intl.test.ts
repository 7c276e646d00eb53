import { parse, TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser'
import { IntlMessageFormat } from 'intl-messageformat'
import { beforeAll, describe, expect, it } from 'vitest'
import { registerAll } from './all.ts'
import { areas as enAreas } from './catalogue/en.ts'
import { service as enService } from './catalogue/en-service.ts'
import { areas as esAreas } from './catalogue/es.ts'
import { service as esService } from './catalogue/es-service.ts'
import { LANGUAGES } from './languages.ts'
import { hasTags } from './patterns.ts'
import { paramText } from './say.ts'
import { monthText, shortMonthText, weekdayText } from './time.ts'

/** What Unicode's CLDR says of a language, as the runtime has it, beside what the catalogue says. */
const LOCALES = { en: 'en-US', es: 'es' } as const
const CATALOGUES = { en: { ...enAreas, ...enService }, es: { ...esAreas, ...esService } }

/** Their words do not change with the number: an English adjective, a phrase. */
const SAME_FOR_ALL = {
  en: ['features.refused', 'ordering.sealed', 'ordering.opened', 'mail.subject', 'reason.vehiclesDropped'],
  es: ['mail.subject', 'reason.vehiclesDropped'],
} as const

beforeAll(registerAll)

const plain = (text: string) => text.replace(/\.$/, '').toLowerCase()
const monday = Date.UTC(2029, 0, 1)
const day = 86_400_000

describe.each(['en', 'es'] as const)('%s, beside Intl', (language) => {
  const name = (at: number, options: Intl.DateTimeFormatOptions) =>
    plain(new Intl.DateTimeFormat(LOCALES[language], { timeZone: 'UTC', ...options }).format(at))

  it('has its months and weekdays', () => {
    for (let month = 1; month <= 12; month++) {
      const at = Date.UTC(2029, month - 1, 15)
      expect(plain(monthText(language, month))).toBe(name(at, { month: 'long' }))
      // Spanish has September in three letters or in four; here all have three.
      const short = name(at, { month: 'short' })
      expect(plain(shortMonthText(language, month))).toBe(short === 'sept' ? 'sep' : short)
    }
    for (let weekday = 1; weekday <= 7; weekday++)
      expect(plain(weekdayText(language, weekday))).toBe(
        name(monday + (weekday - 1) * day, { weekday: 'short' }),
      )
  })

  it('has its numbers', () => {
    const reader = {
      language,
      temperature: 'C',
      volume: 'mL',
      length: 'mm',
      clock: '24h',
      firstDay: 1,
      zone: 'UTC',
    } as const
    const format = new Intl.NumberFormat(LOCALES[language], { useGrouping: false, maximumFractionDigits: 6 })
    for (const value of [0, 1, -1, 0.25, 12.5, 999, 1234.5, -0.001])
      expect(paramText(reader, value).replace('−', '-')).toBe(format.format(value).replace('−', '-'))
    for (const value of [-40, -0.5, 0, 23.04, 176.7]) {
      const tenths = new Intl.NumberFormat(LOCALES[language], {
        minimumFractionDigits: 1,
        maximumFractionDigits: 1,
      })
      const text = paramText(reader, { celsius: value })
      expect(text.replace('−', '-').startsWith(tenths.format(value).replace('−', '-'))).toBe(true)
      expect(text).toMatch(/\s°C$/)
    }
  })

  const rules = new Intl.PluralRules(LANGUAGES[language].locale)
  const counted = Object.values(CATALOGUES[language])
    .flatMap((area) => Object.entries(area as Record<string, string>))
    .flatMap(([key, pattern]) =>
      plurals(parse(pattern, { ignoreTag: !hasTags(pattern) })).map((plural) => [key, plural] as const),
    )

  it('has no plural form that the language lacks, and the form of one thing wherever it counts', () => {
    expect(counted.length).toBeGreaterThan(50)
    const known = new Set<string>(rules.resolvedOptions().pluralCategories)
    const wrong = counted.flatMap(([key, { options }]) => {
      const forms = Object.keys(options).filter((form) => !form.startsWith('='))
      const unknown = forms.filter((form) => !known.has(form))
      const isComplete = 'other' in options && ('one' in options || '=1' in options)
      return unknown.length > 0 || !isComplete ? [`${key}: ${Object.keys(options).join(', ')}`] : []
    })
    expect(wrong.map((each) => each.split(':')[0])).toEqual(SAME_FOR_ALL[language])
  })

  it('takes the form that the language has for a number', () => {
    const message = new IntlMessageFormat(
      '{n, plural, one {one} many {many} other {other}}',
      LANGUAGES[language].locale,
    )
    for (const n of [0, 1, 1.5, 2, 5, 11, 21, 101, 1_000_000])
      expect(message.format({ n })).toBe(rules.select(n))
  })
})

interface Plural {
  readonly options: Readonly<Record<string, unknown>>
}

function plurals(elements: readonly MessageFormatElement[]): Plural[] {
  return elements.flatMap((element) => {
    if (element.type === TYPE.tag) return plurals(element.children)
    if (element.type !== TYPE.plural && element.type !== TYPE.select) return []
    const within = Object.values(element.options).flatMap(({ value }) => plurals(value))
    return element.type === TYPE.plural ? [element, ...within] : within
  })
}
