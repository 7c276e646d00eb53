import type { RouteContract } from '@clampclock/contracts'
import * as z from 'zod'

/**
 * What the document says of a route's answer: the contract's own words, else what was asked for (GET), else the name of
 * the schema.
 *
 * @throws {Error} When there are none, at the start.
 */
export function describeAnswer({ answer, method, summary, operationId, ...contract }: RouteContract): string {
  if (answer) return answer
  if (contract.status === 204) return 'Done'
  if (method === 'GET') return summary
  const { id } = z.globalRegistry.get(contract.response) ?? {}
  if (id === undefined)
    throw new Error(`${operationId} answers what has no name: say what it is in \`answer\``)
  return contract.status === 202
    ? `The ${wordsOf(id)}, which is being made`
    : `The ${wordsOf(id)} as it is now`
}

/** `RepairOrderDetail` is the detail of a repair order to a program, and a repair order to everybody else. */
function wordsOf(id: string): string {
  return id
    .replace(/Detail$/, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
}
