import type {
  RouteContract,
  WireBodyOf,
  WireParamsOf,
  WireQueryOf,
  WireResultOf,
} from '@clampclock/contracts'
import { acceptedLanguage } from '../lib/preferences.ts'
import { toProblemError, UnreachableError } from './problem.ts'
import { deviceNow, noteServerDate, serverNow } from './server-clock.ts'
import { urlOf } from './url.ts'

type Part<Name extends string, Value> = [Value] extends [undefined]
  ? { readonly [K in Name]?: undefined }
  : Record<string, never> extends Value
    ? { readonly [K in Name]?: Value }
    : { readonly [K in Name]: Value }

/** What a call of one route needs: exactly what its contract asks for. */
export type InputOf<C extends RouteContract> = Part<'params', WireParamsOf<C>> &
  Part<'query', WireQueryOf<C>> &
  Part<'body', WireBodyOf<C>> &
  (C extends { ifMatch: true } ? { readonly ifMatch: number } : { readonly ifMatch?: undefined })

interface Sending {
  readonly signal?: AbortSignal
  /** One per action of a person, so that sending it again does it once. */
  readonly idempotencyKey?: string
  /** Whose act it is: refused where somebody else has signed in on the device since. */
  readonly actingPersonId?: string
}

/**
 * Calls a route by its contract. The result is JSON as it is on the wire: instants are ISO 8601 text.
 *
 * @throws ProblemError when the service refuses, UnreachableError when no answer comes.
 */
export async function call<C extends RouteContract>(
  route: C,
  input: InputOf<C> & Sending,
): Promise<WireResultOf<C>> {
  const sentAtMs = deviceNow().monotonicMs
  const response = await send(route, input)
  noteServerDate(response.headers.get('date'), sentAtMs, deviceNow())
  const body: unknown = response.status === 204 ? null : await response.json().catch(() => null)
  if (!response.ok) throw toProblemError(response.status, body, response.headers.get('retry-after'))
  return body as WireResultOf<C>
}

async function send(route: RouteContract, input: InputOf<RouteContract> & Sending): Promise<Response> {
  const headers: Record<string, string> = { accept: 'application/json' }
  const language = acceptedLanguage()
  if (language !== undefined) headers['accept-language'] = language
  if (input.body !== undefined) headers['content-type'] = 'application/json'
  if (input.ifMatch !== undefined) headers['if-match'] = `"${String(input.ifMatch)}"`
  if (route.method === 'POST') headers['idempotency-key'] = `"${input.idempotencyKey ?? newKey()}"`
  if (input.actingPersonId !== undefined) headers['acting-person'] = input.actingPersonId
  try {
    return await fetch(urlOf(route.path, input.params, input.query), {
      method: route.method,
      headers,
      credentials: 'same-origin',
      ...(input.body === undefined ? {} : { body: JSON.stringify(input.body) }),
      ...(input.signal === undefined ? {} : { signal: input.signal }),
    })
  } catch (error) {
    if (input.signal?.aborted === true) throw error
    throw new UnreachableError(error)
  }
}

/** A fresh idempotency key. `randomUUID` exists on https and localhost only; a shop's plain-http LAN is neither. */
export function newKey(): string {
  if (typeof crypto.randomUUID === 'function') return crypto.randomUUID()
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  bytes[6] = (bytes[6]! & 0x0f) | 0x40
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5')
}

/** An instant for 'it happened now', never ahead of the server's clock. */
export function happenedNow(): string {
  return new Date(serverNow().earliestMs).toISOString()
}
