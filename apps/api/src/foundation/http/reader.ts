import type { Reader } from '@clampclock/messages'
import type { FastifyRequest } from 'fastify'
import { readerOf } from '../words/reader.ts'

/** How whoever asks reads. */
export function readerFor(request: FastifyRequest): Reader {
  return readerOf(request.actor?.preferences ?? null, request.headers['accept-language'])
}
