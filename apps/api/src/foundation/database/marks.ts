import * as z from 'zod'
import type { Database, Value } from './database.ts'
import { defineRead, readInChain, type Read } from './read.ts'

/** Of what it is asked whether it was written to. */
export interface MarkAsked {
  readonly read: Read<{ readonly mark: string }>
  readonly values: readonly Value[]
}

/** Text that is another one after anything was written of what it is asked of: table change_mark says how. */
export async function readMark(
  database: Database,
  organizationId: string,
  { read, values }: MarkAsked,
): Promise<string> {
  const [row] = await readInChain(database, organizationId, read, values)
  return row!.mark
}

/** A mark over what belongs to the chain and over the shops that `which` names. */
export function defineMark(which: string): MarkAsked['read'] {
  return defineRead(
    z.strictObject({ mark: z.string() }),
    { mark: `coalesce(sum(transaction), 0)::text || ' ' || count(*)` },
    `from change_mark where scope_id = (select current_organization()) or ${which}`,
  )
}

const SHOP = defineMark('scope_id = $1::uuid')
const EVERY_SHOP = defineMark('true')

/** Of one shop, or of all where none is named. */
export function ofShop(shopId: string | undefined): MarkAsked {
  return shopId === undefined ? { read: EVERY_SHOP, values: [] } : { read: SHOP, values: [shopId] }
}

/** Rows of sessions that have ended tell nothing any more. Once a start: sessions last as long as a process. */
export async function forgetEndedSessions(database: Database): Promise<void> {
  if (database.kind === 'embedded') return
  await database.execute('delete from change_mark where session not in (select pid from pg_stat_activity)')
}
