import { lookup as lookUp } from 'node:dns'
import http from 'node:http'
import https from 'node:https'
import type { LookupFunction } from 'node:net'
import { useAgent } from 'request-filtering-agent'
import { isInDeprecatedForm, isNeverCalled } from './never-called.ts'

/** Sends a message to an address; answers the status. Follows no redirect: what was signed for one address is for no other. */
export type Post = (
  url: string,
  headers: Readonly<Record<string, string>>,
  body: string,
  timeoutMs: number,
) => Promise<number>

/**
 * A caller of addresses that people enter. Unless `toPrivateAddresses`, it calls none of the server's own networks, by
 * whatever name, and in any case none that tells a machine its keys: the address is looked at after the name was looked up.
 */
export function poster(toPrivateAddresses: boolean): Post {
  return (url, headers, body, timeoutMs) =>
    new Promise((resolve, reject) => {
      const { request } = url.startsWith('https:') ? https : http
      const agent = useAgent(url, { allowPrivateIPAddress: toPrivateAddresses })
      const refusal = refusalOf(toPrivateAddresses)
      const host = new URL(url).hostname.replaceAll(/^\[|\]$/g, '')
      const fault = refusal(host)
      if (fault) {
        reject(fault)
        return
      }
      // The agent looks at what this finds, too.
      const lookup: LookupFunction = (name, options, found) => {
        lookUp(name, { ...options, all: true }, (error, addresses) => {
          const refused = error ?? addresses.map(({ address }) => refusal(address)).find(Boolean)
          if (refused) found(refused, [])
          else if (options.all) found(null, addresses)
          else found(null, addresses[0]!.address, addresses[0]!.family)
        })
      }
      const signal = AbortSignal.timeout(timeoutMs)
      const sent = request(url, { method: 'POST', headers, agent, lookup, signal }, (response) => {
        response.resume()
        resolve(response.statusCode ?? 0)
      })
      sent.on('error', (error) => reject(toldPlainly(error)))
      sent.end(body)
    })
}

const ofOwnNetwork = (cause?: Error) =>
  new Error(
    'It is an address of the server’s own network: start the service with WEBHOOK_PRIVATE_ADDRESSES=true to allow that',
    { cause },
  )

/** What the agent's own list of ranges leaves out: refused before it is asked, and again for what a name stands for. */
function refusalOf(toPrivateAddresses: boolean): (address: string) => Error | undefined {
  return (address) => {
    if (isNeverCalled(address))
      return new Error('It is an address at which a machine is told what it may: no webhook goes there')
    return !toPrivateAddresses && isInDeprecatedForm(address) ? ofOwnNetwork() : undefined
  }
}

function toldPlainly(error: Error): Error {
  return /is not allowed/.test(error.message) ? ofOwnNetwork(error) : error
}
