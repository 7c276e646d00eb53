import fastify from 'fastify'
import { expect, it } from 'vitest'
import type { TrustedProxies } from '../config/config.ts'
import { trustOf } from './trusted-proxies.ts'

/** Who the service takes the caller for, by the address of the connection and what it sends as X-Forwarded-For. */
async function callerOf(trusted: TrustedProxies, remoteAddress: string, forwarded: string): Promise<string> {
  const app = fastify({ trustProxy: trustOf(trusted) })
  app.get('/', (request) => request.ip)
  const headers = { 'x-forwarded-for': forwarded }
  return (await app.inject({ url: '/', remoteAddress, headers })).body
}

it.each<[string, TrustedProxies, string, string, string]>([
  ['nobody, without a proxy', false, '127.0.0.1', '198.51.100.1', '127.0.0.1'],
  ['the last entry, of one proxy', 1, '127.0.0.1', '203.0.113.9, 198.51.100.1', '198.51.100.1'],
  ['the last but one, of two', 2, '10.0.0.2', '203.0.113.9, 198.51.100.1, 10.0.0.1', '198.51.100.1'],
  ['nobody who is no proxy of ours', 1, '198.51.100.7', '203.0.113.9', '198.51.100.7'],
  ['a mapped address of ours', 1, '::ffff:127.0.0.1', '198.51.100.1', '198.51.100.1'],
  ['the nearest that is not named', ['10.0.0.0/8'], '10.0.0.2', '203.0.113.9, 198.51.100.1', '198.51.100.1'],
  ['nobody, from an address that is not named', ['10.0.0.0/8'], '127.0.0.1', '198.51.100.1', '127.0.0.1'],
])('believes %s', async (_name, trusted, remoteAddress, forwarded, caller) => {
  expect(await callerOf(trusted, remoteAddress, forwarded)).toBe(caller)
})
