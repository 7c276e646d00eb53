import { createHash } from 'node:crypto'
import type pg from 'pg'

/** Tables of secrets and of what has happened to requests: another chain has none. */
const LEFT_OUT = [
  'sign_in_session',
  'access_token',
  'idempotency_key',
  'outbox_event',
  'delivery',
  'calendar_feed',
  'change_mark',
]

interface Column {
  readonly table: string
  readonly name: string
  readonly type: string
  readonly isUnique: boolean
}

/** The owner of a copied chain, signed in. */
export interface Copied {
  readonly organizationId: string
  readonly token: string
}

/**
 * Copies the demo chain, with another id in the place of each: chains `from` to `until`. Straight into the tables, with no
 * trigger and no check; what hides in JSON stays as it is.
 */
export async function copyChain(client: pg.Client, from: number, until: number): Promise<Copied[]> {
  const { rows: columns } = await client.query<Column>(COLUMNS, [LEFT_OUT])
  const tables = new Map<string, Column[]>()
  for (const column of columns) tables.set(column.table, [...(tables.get(column.table) ?? []), column])
  // At one go: the service, which looks at every chain that there is, sees each of them whole or not at all.
  await client.query('begin')
  await client.query('set local session_replication_role = replica')
  const { rows } = await client.query<{ id: string }>(
    'select id from organization where is_demo order by created_at limit 1',
  )
  const [demo] = rows
  for (const [table, own] of tables) {
    const names = own.map(({ name }) => `"${name}"`).join(', ')
    const values = own.map((column) => valueOf(column)).join(', ')
    const which = table === 'organization' ? 't.id' : 't.organization_id'
    await client.query(
      `insert into "${table}" (${names}) select ${values} from "${table}" t, generate_series(${from}, ${until - 1}) n where ${which} = $1`,
      [demo!.id],
    )
  }
  const copied: Copied[] = []
  for (let n = from; n < until; n++) {
    const token = `cc_session_copied_chain_number_${String(n).padStart(6, '0')}`
    const hash = createHash('sha256').update(token).digest('hex')
    const { rows: owners } = await client.query<{ organization_id: string }>(
      `insert into sign_in_session (secret_hash, organization_id, person_id, expires_at)
       select $1, p.organization_id, p.id, now() + interval '1 day' from person p where p.email = $2 returning organization_id`,
      [hash, `owner@bramblewick.example${n}`],
    )
    copied.push({ organizationId: owners[0]!.organization_id, token })
  }
  await client.query('commit')
  await client.query('analyze')
  return copied
}

function valueOf({ name, type, isUnique }: Column): string {
  if (type === 'uuid') return `md5(t."${name}"::text || n)::uuid`
  return type === 'text' && isUnique ? `t."${name}" || n` : `t."${name}"`
}

/** But what the database gives by itself. A text is unique where a key has no id in it. */
const COLUMNS = `
  select c.relname as table, a.attname as name, t.typname as type,
         exists (select from pg_index i where i.indrelid = c.oid and i.indisunique and a.attnum = any (i.indkey)
                   and not exists (select from pg_attribute k join pg_type kt on kt.oid = k.atttypid
                                    where k.attrelid = c.oid and k.attnum = any (i.indkey) and kt.typname = 'uuid')) as "isUnique"
    from pg_class c join pg_attribute a on a.attrelid = c.oid join pg_type t on t.oid = a.atttypid
   where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and a.attnum > 0 and not a.attisdropped
     and a.attidentity = '' and a.attgenerated = '' and c.relname <> '_prisma_migrations' and c.relname <> all ($1)
   order by c.relname, a.attnum`
