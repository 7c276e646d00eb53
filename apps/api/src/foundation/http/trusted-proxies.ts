import ipaddr from 'ipaddr.js'
import type { TrustedProxies } from '../config/config.ts'

/** Where a proxy in front of the service stands. One on a public address has to be named. */
const NEAR: readonly string[] = ['loopback', 'private', 'uniqueLocal', 'linkLocal']

/**
 * What fastify asks of each address from the connection outwards: is it a proxy whose word on who called it counts? A
 * number is a number of proxies, counted from the service, and the connection must come from a network of our own:
 * whoever gets past the proxies is believed nothing.
 */
export function trustOf(
  trusted: TrustedProxies,
): false | string[] | ((address: string, hop: number) => boolean) {
  if (typeof trusted !== 'number') return trusted === false ? false : [...trusted]
  return (address, hop) => hop < trusted && (hop > 0 || isNear(address))
}

function isNear(address: string): boolean {
  return ipaddr.isValid(address) && NEAR.includes(ipaddr.process(address).range())
}
