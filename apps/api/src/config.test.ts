import { describe, expect, it } from 'vitest'
import { readConfig } from './config.ts'

describe('readConfig', () => {
  it('has a default for everything', () => {
    expect(readConfig({}, [])).toMatchObject({
      port: 3000,
      host: '127.0.0.1',
      databaseUrl: undefined,
      empty: false,
      secureCookies: false,
    })
    expect(readConfig({ PORT: '', DATABASE_URL: '' }, ['--empty'])).toMatchObject({
      port: 3000,
      databaseUrl: undefined,
      empty: true,
    })
  })

  it('names every wrong variable at once', () => {
    const wrong = () => readConfig({ PORT: 'eighty', DATABASE_URL: 'mysql://x', SECURE_COOKIES: 'yes' }, [])
    expect(wrong).toThrow('PORT must be a number')
    expect(wrong).toThrow('DATABASE_URL must start with postgresql://')
    expect(wrong).toThrow('SECURE_COOKIES must be true or false')
    expect(() => readConfig({ PORT: '70000' }, [])).toThrow('PORT must be at most 65535')
  })

  it('refuses an option that it does not know', () => {
    expect(() => readConfig({}, ['--emtpy'])).toThrow('Unknown option --emtpy')
  })
})
