import type * as z from 'zod'
import type { Permission } from './permissions.ts'

/** Who may call a route. `public` needs no sign-in; `signedIn` needs any; else the permission, in some shop at least. */
export type Access = 'public' | 'signedIn' | Permission

/**
 * The one description of a route: the server registers, validates and documents it from here, and the
 * dashboard calls it through here. Paths carry Fastify's `:name` parameters.
 */
export interface RouteContract {
  readonly method: 'GET' | 'POST' | 'PATCH' | 'PUT' | 'DELETE'
  readonly path: `/${string}`
  readonly operationId: string
  readonly tag: string
  readonly summary: string
  readonly description?: string
  readonly access: Access
  /**
   * `chain`: the permission must be held in every shop, since the act counts for all of them. Left out: in the shop
   * that the thing belongs to, or in each shop that the act reaches, which the use case asks.
   */
  readonly reach?: 'chain'
  readonly params?: z.ZodObject
  readonly query?: z.ZodObject
  readonly body?: z.ZodType
  /** Open also to who was given a password by somebody else, and must choose another first. */
  readonly withTemporaryPassword?: true
  /** The status of success. */
  readonly status: 200 | 201 | 202 | 204
  readonly response: z.ZodType
  /** What the answer is, in words; left out where a name tells it: that of the schema, or for a GET the summary. */
  readonly answer?: string
  /** The answer is a document of this type, not JSON. */
  readonly mediaType?: 'application/pdf' | 'application/ld+json' | 'text/csv' | 'image/*'
  /** The largest body that is taken, bytes; 1 MiB where it is not given. */
  readonly bodyLimit?: number
  /** The edit needs If-Match with the version that was read. */
  readonly ifMatch?: true
  /** The answer carries a secret that is kept nowhere, so it cannot be given again on a retry. */
  readonly answerIsSecret?: true
}

/** Keeps the literal types of a contract, and checks its shape. */
export function defineRoute<const Contract extends RouteContract>(contract: Contract): Contract {
  return contract
}

type In<Schema> = Schema extends z.ZodType ? z.input<Schema> : undefined
type Out<Schema> = Schema extends z.ZodType ? z.output<Schema> : undefined

/** What the server's handler receives. */
export type ParamsOf<C extends RouteContract> = Out<C['params']>
export type QueryOf<C extends RouteContract> = Out<C['query']>
export type BodyOf<C extends RouteContract> = Out<C['body']>
/** What the server's handler returns: rich values, encoded to the wire by the contract. */
export type ResultOf<C extends RouteContract> = z.output<C['response']>

/** What a client sends and gets: JSON as it is on the wire. */
export type WireParamsOf<C extends RouteContract> = In<C['params']>
export type WireQueryOf<C extends RouteContract> = In<C['query']>
export type WireBodyOf<C extends RouteContract> = In<C['body']>
export type WireResultOf<C extends RouteContract> = z.input<C['response']>
