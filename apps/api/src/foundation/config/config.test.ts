import { describe, expect, it } from 'vitest'
import { readConfig } from './config.ts'

describe('readConfig', () => {
  it('has a default for everything', () => {
    expect(readConfig({}, [])).toMatchObject({
      port: 3000,
      host: '127.0.0.1',
      databaseUrl: undefined,
      demo: 'load',
      secureCookies: false,
    })
    expect(readConfig({ PORT: '', DATABASE_URL: '' }, ['--empty'])).toMatchObject({
      port: 3000,
      databaseUrl: undefined,
      demo: 'serve',
    })
  })

  it.each([
    ['127.0.0.1', {}],
    ['127.1.2.3', {}],
    ['localhost', {}],
    ['::1', {}],
    ['127.0.0.1', { PUBLIC_URL: 'http://localhost:3000' }],
  ])('loads the demo on %s by itself', (HOST, others) => {
    expect(readConfig({ HOST, ...others }, []).demo).toBe('load')
    expect(readConfig({ HOST, ...others }, ['--empty']).demo).toBe('serve')
    expect(readConfig({ HOST, ...others, DEMO: 'false' }, []).demo).toBe('serve')
  })

  it.each([
    ['0.0.0.0', {}],
    ['::', {}],
    ['shop.example', {}],
    ['127.evil.example', {}],
    ['127.0.0.1', { PUBLIC_URL: 'https://stock.example' }],
    ['127.0.0.1', { TRUST_PROXY: 'true' }],
  ])('neither loads nor serves the demo where others reach it, on %s %j, unless asked', (HOST, others) => {
    expect(readConfig({ HOST, ...others }, []).demo).toBe('refuse')
    expect(readConfig({ HOST, ...others }, ['--empty']).demo).toBe('refuse')
    expect(readConfig({ HOST, ...others }, ['--demo']).demo).toBe('load')
    expect(readConfig({ HOST, ...others, DEMO: 'true' }, []).demo).toBe('load')
  })

  it('trusts no proxy unless told how many there are, or which', () => {
    const trusted = (TRUST_PROXY: string) => readConfig({ TRUST_PROXY }, []).trustProxy
    expect(readConfig({}, []).trustProxy).toBe(false)
    expect(trusted('true')).toBe(1)
    expect(trusted('2')).toBe(2)
    expect(trusted('127.0.0.1, 10.0.0.0/8,fd00::/8')).toEqual(['127.0.0.1', '10.0.0.0/8', 'fd00::/8'])
    for (const wrong of ['yes', '0', '10', '127.1', '10.0.0.0/33', '127.0.0.1,', 'proxy.example'])
      expect(() => trusted(wrong), wrong).toThrow('TRUST_PROXY must be')
  })

  it('is not asked for the demo and for none at once', () => {
    expect(() => readConfig({}, ['--demo', '--empty'])).toThrow('--demo and --empty')
    expect(() => readConfig({ DEMO: 'true' }, ['--empty'])).toThrow('--demo and --empty')
    expect(() => readConfig({ DEMO: 'yes' }, [])).toThrow('DEMO must be true or false')
  })

  it('names every wrong variable at once', () => {
    const wrong = () => readConfig({ PORT: 'eighty', DATABASE_URL: 'mysql://x', SECURE_COOKIES: 'yes' }, [])
    expect(wrong).toThrow('PORT must be a number')
    expect(wrong).toThrow('DATABASE_URL must start with postgresql://')
    expect(wrong).toThrow('SECURE_COOKIES must be true or false')
    expect(() => readConfig({ PORT: '70000' }, [])).toThrow('PORT must be at most 65535')
  })

  it('hashes passwords at full cost unless told otherwise, and at less only where nobody else comes', () => {
    expect(readConfig({}, []).passwordCost).toBe(2 ** 17)
    expect(readConfig({ PASSWORD_COST: '1024' }, []).passwordCost).toBe(1024)
    expect(readConfig({ HOST: '0.0.0.0', PASSWORD_COST: '262144' }, []).passwordCost).toBe(2 ** 18)
    for (const open of [
      { HOST: '0.0.0.0' },
      { PUBLIC_URL: 'https://stock.example' },
      { TRUST_PROXY: 'true' },
    ])
      expect(() => readConfig({ ...open, PASSWORD_COST: '65536' }, [])).toThrow('PASSWORD_COST below 131072')
    expect(() => readConfig({ PASSWORD_COST: '1000' }, [])).toThrow('PASSWORD_COST must be at least 1024')
    expect(() => readConfig({ PASSWORD_COST: '5000' }, [])).toThrow('PASSWORD_COST must be a power of two')
  })

  it('keeps what grows for as long as it is told, and readings for as long as anything looks back', () => {
    expect(readConfig({}, []).keep).toEqual({
      eventsDays: 7,
      keysDays: 30,
      deliveriesDays: 90,
      allReadingsDays: 400,
    })
    expect(readConfig({ KEEP_EVENTS_DAYS: '2' }, []).keep.eventsDays).toBe(2)
    expect(() => readConfig({ KEEP_KEYS_DAYS: '0' }, [])).toThrow('KEEP_KEYS_DAYS must be at least 1')
    expect(() => readConfig({ KEEP_ALL_READINGS_DAYS: '30' }, [])).toThrow(
      'KEEP_ALL_READINGS_DAYS must be at least 60',
    )
  })

  it('refuses an option that it does not know', () => {
    expect(() => readConfig({}, ['--emtpy'])).toThrow('Unknown option --emtpy')
  })
})
