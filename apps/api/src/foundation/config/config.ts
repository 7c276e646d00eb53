import ipaddr from 'ipaddr.js'
import { isIP, isIPv4 } from 'node:net'
import { homedir } from 'node:os'
import { resolve } from 'node:path'
import * as z from 'zod'

/** Everything that can be set from outside, by environment or on the command line. */
export interface Config {
  readonly port: number
  readonly host: string
  readonly dataDir: string
  readonly databaseUrl: string | undefined
  /** Cookies only travel over TLS: set where a proxy in front of the service ends it. */
  readonly secureCookies: boolean
  /** Which proxies are believed when they name the caller: so many in front of the service, or those addresses; false: none. */
  readonly trustProxy: TrustedProxies
  readonly logLevel: string
  /** The address that people and their phones reach the service by; labels and mails carry it. */
  readonly publicUrl: string | undefined
  /** Of the mail server for the daily digest; without one no mail is sent. */
  readonly smtpUrl: string | undefined
  readonly mailFrom: string
  /** Webhooks may call addresses of the server's own networks: for whoever runs the service for themselves. */
  readonly webhookPrivateAddresses: boolean
  /** Others than this machine's own programs can call it, as far as the configuration tells. */
  readonly isOpen: boolean
  readonly demo: DemoRule
  /** N of scrypt for new passwords. Lower than the default only on this machine alone: for tests. */
  readonly passwordCost: number
  /** How long what grows with time is kept, days. docs/operations.md has the table. */
  readonly keep: Keep
}

export type TrustedProxies = false | number | readonly string[]

export interface Keep {
  /** What changed, for screens that are open. */
  readonly eventsDays: number
  /** What a request with an Idempotency-Key was answered. */
  readonly keysDays: number
  /** Messages to webhooks and mails that have arrived, or were given up. */
  readonly deliveriesDays: number
  /** Every reading of the air; older ones are thinned. */
  readonly allReadingsDays: number
}

/**
 * Of the invented chain, whose passwords are printed in the README. `load`: into an empty database. `serve`: where it is
 * there already. `refuse`: where others reach the service and nobody asked for it.
 */
export type DemoRule = 'load' | 'serve' | 'refuse'

/** N of scrypt, with r = 8 and p = 1: OWASP Password Storage Cheat Sheet. */
export const DEFAULT_PASSWORD_COST = 2 ** 17

const OPTIONS: readonly string[] = ['--empty', '--demo']

const whole = (name: string, min: number, max: number) =>
  z.coerce
    .number({ error: `${name} must be a number` })
    .int(`${name} must be a whole number`)
    .min(min, `${name} must be at least ${min}`)
    .max(max, `${name} must be at most ${max}`)

/**
 * Rechecks by a new data sheet go back a month, forecasts three weeks, habits one: what these read is never thinned.
 */
const LEAST_READING_DAYS = 60

const TRUST_PROXY_FIX =
  'TRUST_PROXY must be false, the number of proxies in front of the service (1 to 9; true is 1), or their addresses, such as 127.0.0.1,10.0.0.0/8'

/**
 * `true` is one, and never "whoever says so": what the caller himself wrote into X-Forwarded-For stands to the left of
 * what the proxies add. Undefined where it can't be read.
 */
function trustedProxies(value: string): TrustedProxies | undefined {
  if (value === 'false') return false
  if (value === 'true') return 1
  if (/^[1-9]$/.test(value)) return Number(value)
  const addresses = value.split(',').map((address) => address.trim())
  return addresses.every(isNetwork) ? addresses : undefined
}

function isNetwork(text: string): boolean {
  return ipaddr.isValidCIDR(text) || (isIP(text) !== 0 && ipaddr.isValid(text))
}

const Environment = z.object({
  PORT: whole('PORT', 0, 65_535).default(3000),
  HOST: z.string().min(1).default('127.0.0.1'),
  DATA_DIR: z.string().min(1).default('data'),
  DATABASE_URL: z
    .string()
    .regex(/^postgres(ql)?:\/\//, 'DATABASE_URL must start with postgresql://')
    .optional(),
  SECURE_COOKIES: z
    .enum(['true', 'false'], { error: 'SECURE_COOKIES must be true or false' })
    .default('false'),
  TRUST_PROXY: z
    .string()
    .transform(trustedProxies)
    .refine((trusted) => trusted !== undefined, TRUST_PROXY_FIX)
    .prefault('false'),
  PUBLIC_URL: z
    .url({ protocol: /^https?$/, error: 'PUBLIC_URL must be an address such as https://stock.example' })
    .optional(),
  SMTP_URL: z
    .string()
    .regex(/^smtps?:\/\//, 'SMTP_URL must start with smtp:// or smtps://')
    .optional(),
  MAIL_FROM: z.string().min(3).default('Clampclock <clampclock@localhost>'),
  WEBHOOK_PRIVATE_ADDRESSES: z
    .enum(['true', 'false'], { error: 'WEBHOOK_PRIVATE_ADDRESSES must be true or false' })
    .default('false'),
  DEMO: z.enum(['true', 'false'], { error: 'DEMO must be true or false' }).optional(),
  PASSWORD_COST: whole('PASSWORD_COST', 2 ** 10, 2 ** 20)
    .refine((cost) => Number.isInteger(Math.log2(cost)), 'PASSWORD_COST must be a power of two')
    .default(DEFAULT_PASSWORD_COST),
  KEEP_EVENTS_DAYS: whole('KEEP_EVENTS_DAYS', 1, 3650).default(7),
  KEEP_KEYS_DAYS: whole('KEEP_KEYS_DAYS', 1, 3650).default(30),
  KEEP_DELIVERIES_DAYS: whole('KEEP_DELIVERIES_DAYS', 1, 3650).default(90),
  KEEP_ALL_READINGS_DAYS: whole('KEEP_ALL_READINGS_DAYS', LEAST_READING_DAYS, 36_500).default(400),
  LOG_LEVEL: z
    .enum(['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent'], {
      error: 'LOG_LEVEL must be one of fatal, error, warn, info, debug, trace, silent',
    })
    .default('warn'),
})

/**
 * Reads the configuration, and names every wrong variable at once.
 *
 * @throws {Error} With one line a wrong variable.
 */
export function readConfig(environment: NodeJS.ProcessEnv, argv: readonly string[]): Config {
  const unknown = argv.filter((argument) => !OPTIONS.includes(argument))
  if (unknown.length > 0)
    throw new Error(
      `Unknown option ${unknown.join(' ')}. There are two: --empty starts without demo data, --demo with it.`,
    )

  const present = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''))
  const parsed = Environment.safeParse(present)
  if (!parsed.success) throw new Error(parsed.error.issues.map((issue) => issue.message).join('\n'))

  const {
    PORT,
    HOST,
    DATA_DIR,
    DATABASE_URL,
    SECURE_COOKIES,
    TRUST_PROXY,
    LOG_LEVEL,
    PUBLIC_URL,
    SMTP_URL,
    MAIL_FROM,
    WEBHOOK_PRIVATE_ADDRESSES,
    DEMO,
    PASSWORD_COST,
  } = parsed.data
  const isOpen =
    !isLoopback(HOST) || TRUST_PROXY !== false || !isLoopback(hostOf(PUBLIC_URL ?? 'http://localhost'))
  if (isOpen && PASSWORD_COST < DEFAULT_PASSWORD_COST)
    throw new Error(
      `PASSWORD_COST below ${DEFAULT_PASSWORD_COST} is for tests on one machine, and others reach this service (HOST, PUBLIC_URL or TRUST_PROXY): leave it out`,
    )
  return {
    port: PORT,
    host: HOST,
    dataDir: resolve(DATA_DIR.replace(/^~(?=\/|$)/, homedir())),
    databaseUrl: DATABASE_URL,
    secureCookies: SECURE_COOKIES === 'true',
    trustProxy: TRUST_PROXY ?? false,
    logLevel: LOG_LEVEL,
    publicUrl: PUBLIC_URL,
    smtpUrl: SMTP_URL,
    mailFrom: MAIL_FROM,
    webhookPrivateAddresses: WEBHOOK_PRIVATE_ADDRESSES === 'true',
    isOpen,
    demo: demoRule({
      isOpen,
      isAsked: DEMO === 'true' || argv.includes('--demo'),
      isUnwanted: DEMO === 'false' || argv.includes('--empty'),
    }),
    passwordCost: PASSWORD_COST,
    keep: {
      eventsDays: parsed.data.KEEP_EVENTS_DAYS,
      keysDays: parsed.data.KEEP_KEYS_DAYS,
      deliveriesDays: parsed.data.KEEP_DELIVERIES_DAYS,
      allReadingsDays: parsed.data.KEEP_ALL_READINGS_DAYS,
    },
  }
}

function demoRule(about: { isOpen: boolean; isAsked: boolean; isUnwanted: boolean }): DemoRule {
  const { isOpen, isAsked, isUnwanted } = about
  if (isAsked && isUnwanted) throw new Error('--demo and --empty (or DEMO) contradict one another: give one')
  if (isAsked) return 'load'
  if (isOpen) return 'refuse'
  return isUnwanted ? 'serve' : 'load'
}

const hostOf = (address: string) => new URL(address).hostname.replace(/^\[|\]$/g, '')

/** Reached from this machine only. A name other than localhost may mean any address. */
function isLoopback(host: string): boolean {
  return host === 'localhost' || host === '::1' || (isIPv4(host) && host.startsWith('127.'))
}
