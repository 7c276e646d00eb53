import http from 'node:http'
import https from 'node:https'
import { useAgent } from 'request-filtering-agent'

/** Sends a message to an address; answers the status. Follows no redirect: what was signed for one address is for no other. */
export type Post = (
  url: string,
  headers: Readonly<Record<string, string>>,
  body: string,
  timeoutMs: number,
) => Promise<number>

/**
 * A caller of addresses that people enter. Unless `toPrivateAddresses`, it calls none of the server's own networks, by
 * whatever name: the address is looked at after the name was looked up.
 */
export function poster(toPrivateAddresses: boolean): Post {
  return (url, headers, body, timeoutMs) =>
    new Promise((resolve, reject) => {
      const { request } = url.startsWith('https:') ? https : http
      const agent = useAgent(url, { allowPrivateIPAddress: toPrivateAddresses })
      const signal = AbortSignal.timeout(timeoutMs)
      const sent = request(url, { method: 'POST', headers, agent, signal }, (response) => {
        response.resume()
        resolve(response.statusCode ?? 0)
      })
      sent.on('error', (error) => reject(toldPlainly(error)))
      sent.end(body)
    })
}

function toldPlainly(error: Error): Error {
  return /is not allowed/.test(error.message)
    ? new Error(
        'It is an address of the server’s own network: start the service with WEBHOOK_PRIVATE_ADDRESSES=true to allow that',
        { cause: error },
      )
    : error
}
