import { beforeAll, describe, expect, expectTypeOf, it } from 'vitest'
import { registerAll } from './all.ts'
import type { ArgumentsOf, TagsOf } from './keys.ts'
import { loadAreas } from './load.ts'
import type { Param } from './param.ts'
import { register } from './patterns.ts'
import type { Reader } from './reader.ts'
import { paramText, say, sayRich } from './say.ts'

const european: Reader = {
  language: 'en',
  temperature: 'C',
  volume: 'mL',
  length: 'mm',
  clock: '24h',
  firstDay: 1,
  zone: 'Europe/Madrid',
}
const spanish: Reader = { ...european, language: 'es' }
const american: Reader = {
  ...european,
  temperature: 'F',
  volume: 'flOz',
  length: 'in',
  clock: '12h',
  firstDay: 7,
  zone: 'America/Chicago',
}

beforeAll(registerAll)

describe('a value', () => {
  const instant = '2026-11-25T13:05:00Z'
  it.each<[Param, string, string, string]>([
    [{ celsius: 23.04 }, '23.0 °C', '73.5 °F', '23,0 °C'],
    [{ celsius: -0.01 }, '0.0 °C', '32.0 °F', '0,0 °C'],
    [{ celsiusDifference: 3 }, '3.0 °C', '5.4 °F', '3,0 °C'],
    [{ millilitres: 220 }, '220 mL', '7.4 fl oz', '220 mL'],
    [{ millilitres: 52.97, round: 'up' }, '53 mL', '1.8 fl oz', '53 mL'],
    [{ millilitres: 52.97, round: 'down' }, '52 mL', '1.7 fl oz', '52 mL'],
    [{ millimetres: 0.25, digits: 2 }, '0.25 mm', '0.0098 in', '0,25 mm'],
    [{ minutes: 0.2, round: 'up' }, '1 min', '1 min', '1 min'],
    [{ minutes: 300, about: true }, '5 h', '5 h', '5 h'],
    [{ minutes: 89.6, about: true }, '1 h 30 min', '1 h 30 min', '1 h 30 min'],
    [{ minutes: Infinity }, 'never', 'never', 'nunca'],
    [{ share: 0.999, round: 'down' }, '99 %', '99 %', '99 %'],
    [{ instant }, 'Wed 25 Nov, 14:05', 'Wed 25 Nov, 7:05 am', 'mié 25 nov, 14:05'],
    [{ instant, style: 'full' }, '25 Nov 2026, 14:05', '25 Nov 2026, 7:05 am', '25 nov 2026, 14:05'],
    [{ instant: 'x' }, 'no valid time', 'no valid time', 'hora no válida'],
    [{ day: '2031-05-31' }, '31 May 2031', '31 May 2031', '31 may 2031'],
    [
      { list: ['a', 'b', { message: { code: 'calendar.never', params: {} } }] },
      'a, b and never',
      'a, b and never',
      'a, b y nunca',
    ],
    [1234.5, '1234.5', '1234.5', '1234,5'],
  ])('%j', (param, one, two, three) => {
    expect([european, american, spanish].map((reader) => paramText(reader, param))).toEqual([one, two, three])
  })

  it('is noon and midnight on twelve hours', () => {
    const at = (hour: string): Param => ({ instant: `2026-11-25T${hour}:30:00Z`, style: 'clock' })
    const reader: Reader = { ...american, zone: 'UTC' }
    expect(['00', '11', '12', '13'].map((hour) => paramText(reader, at(hour)))).toEqual([
      '12:30 am',
      '11:30 am',
      '12:30 pm',
      '1:30 pm',
    ])
  })
})

describe('say', () => {
  it('says a key, and a message that is data', () => {
    expect(say(spanish, 'calendar.never')).toBe('nunca')
    expect(say(european, { code: 'calendar.am', params: { time: '2:05' } })).toBe('2:05 am')
  })

  it('counts in plural forms, and takes text for text', () => {
    register('en', { 'test.joints': "{n, plural, one{# joint} other{# joints}} of {who}, <b> isn't a tag" })
    const message = { code: 'test.joints', params: { n: 1, who: '{x}' } } as never
    expect(say(european, message)).toBe("1 joint of {x}, <b> isn't a tag")
  })

  it('writes a number that is shown as the language does, and counts it all the same', () => {
    register('es', { 'test.each': '{n} {n, plural, one{pieza} other{piezas}}' })
    expect(say(spanish, { code: 'test.each', params: { n: 7.5 } } as never)).toBe('7,5 piezas')
    expect(say(spanish, { code: 'test.each', params: { n: 1 } } as never)).toBe('1 pieza')
  })

  it('has parts in a sentence, where the language puts them', () => {
    register('en', { 'test.rich': 'By {who}: <link>the <b>{n}</b> last</link>' })
    register('es', { 'test.rich': '<link>Los últimos <b>{n}</b></link> de {who}' })
    const element = (type: string) => (children: readonly unknown[]) => ({ type, children })
    const rich = (reader: Reader) =>
      sayRich(
        reader,
        'test.rich' as never,
        {
          who: { part: { type: 'i', children: ['Ana'] } },
          n: 1.5,
          link: element('a'),
          b: element('b'),
        } as never,
      )
    expect(rich(european)).toEqual([
      'By ',
      { type: 'i', children: ['Ana'] },
      ': ',
      { type: 'a', children: ['the ', { type: 'b', children: ['1.5'] }, ' last'] },
    ])
    expect(rich(spanish)[0]).toEqual({
      type: 'a',
      children: ['Los últimos ', { type: 'b', children: ['1,5'] }],
    })
  })

  it('falls back to English, then to the key', () => {
    register('en', { 'test.english': 'Only English' })
    expect(say(spanish, { code: 'test.english', params: {} } as never)).toBe('Only English')
    expect(say(spanish, { code: 'test.nowhere', params: {} } as never)).toBe('test.nowhere')
  })

  it('loads an area alone', async () => {
    await loadAreas('es', ['calendar'])
    expect(say(spanish, 'calendar.month.1')).toBe('enero')
  })

  it('has its arguments checked by types', () => {
    expectTypeOf<ArgumentsOf<'{a} of {b, plural, one{one {c}} other{#, {d}}}'>>().toEqualTypeOf<
      'a' | 'b' | 'c' | 'd'
    >()
    expectTypeOf<TagsOf<'By <b>{a}</b> and <link>more</link>'>>().toEqualTypeOf<'b' | 'link'>()
    // @ts-expect-error - the time is missing
    expect(() => say(european, 'calendar.am')).toThrow(/time/)
    // @ts-expect-error - there is no such key
    expect(say(european, 'calendar.someday')).toBe('calendar.someday')
  })
})
