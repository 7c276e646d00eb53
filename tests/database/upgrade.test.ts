import { cp, mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type pg from 'pg'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Database } from '../../apps/api/src/foundation/database/database.ts'
import { migrate } from '../../apps/api/src/foundation/database/migrate.ts'
import { openServer } from '../../apps/api/src/foundation/database/server.ts'
import { Prisma } from '../../apps/api/src/generated/prisma/client.ts'
import { CATALOGUE, catalogueOf } from '../support/catalogue.ts'
import { createDatabase, MIGRATIONS, withClient } from '../support/databases.ts'
import { makeShop } from '../support/fixtures.ts'
import { oneOfEach } from '../support/one-of-each.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

/** The last of those that make the tables of 0.2.0 from nothing: the ones after it meet data. */
const BASELINE = '20261127120800_attention'
const migrationNames = async () => (await readdir(MIGRATIONS)).filter((name) => /^\d/.test(name)).toSorted()

let fresh: TestApp
beforeAll(async () => {
  fresh = await startTestApp('server')
  const here = await makeShop(fresh.owner)
  await oneOfEach(fresh, here, await makeShop(fresh.owner))
})
afterAll(() => fresh.end())

it('brings a database at the baseline, with one of each thing in it, to the schema that a fresh one has', async () => {
  const url = await createDatabase()
  const folder = await mkdtemp(join(tmpdir(), 'clampclock-test-'))
  const database = await openServer(url)
  const names = await migrationNames()
  const add = (name: string) => cp(join(MIGRATIONS, name), join(folder, name), { recursive: true })
  try {
    for (const name of names.filter((each) => each <= BASELINE)) await add(name)
    await migrate(database, folder)
    // Most tables, so that a migration that only an empty table takes is found out.
    expect(await copyRows(fresh.url, url)).toBeGreaterThan(40)
    const alerts = await told(database, Prisma.sql`message`)
    for (const name of names.filter((each) => each > BASELINE)) {
      await add(name)
      expect(await migrate(database, folder)).toEqual([name])
    }
    expect(await catalogueOf(database)).toEqual(await catalogueOf(fresh.database))
    // What was kept as text is told as it was written.
    expect(alerts.length).toBeGreaterThan(0)
    expect(
      await told(database, Prisma.sql`case code when 'alert.asWritten' then params->>'text' end`),
    ).toEqual(alerts)
  } finally {
    await database.close()
    await rm(folder, { recursive: true, force: true })
  }
})

it('notices whatever is changed in a schema', async () => {
  const before = await catalogueOf(fresh.database)
  const differences: string[] = []
  for (const change of [
    'alter table lot add column planted text',
    "alter table lot alter column lot_number set default 'none'",
    'alter table lot drop constraint lot__expiry_precision',
    'drop index lot__by_expiry',
    'alter table stock_movement disable trigger stock_movement__append_only',
    'create or replace function current_organization() returns uuid language sql stable return null::uuid',
    'alter policy tenancy on lot using (true)',
    'alter table lot disable row level security',
    'grant delete on lot to clampclock_app',
    'grant update (kind) on incident to clampclock_app',
    "comment on table lot is 'planted'",
  ])
    await withClient(fresh.url, async (client) => {
      await client.query(`begin; ${change}`)
      const { rows } = await client.query<{ line: string }>(CATALOGUE)
      const after = new Set(rows.map(({ line }) => line))
      await client.query('rollback')
      if (before.length === after.size && before.every((line) => after.has(line))) differences.push(change)
    })
  expect(differences).toEqual([])
})

/** Columns of the baseline that a later migration made into others, and something that they may have held. */
const GONE_SINCE: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  alert: { message: "'Was told as ' || code" },
}

/** What alerts say, by their ids. */
function told({ prisma }: Database, words: Prisma.Sql): Promise<{ id: string; words: string }[]> {
  return prisma.$queryRaw`select id, ${words} as words from alert order by id`
}

/**
 * Takes over the rows of another database, column by column of the same name, and answers how many tables it filled.
 * What watches over writes is off meanwhile: the rows keep every rule where they come from.
 */
async function copyRows(from: string, to: string): Promise<number> {
  return withClient(from, (source) =>
    withClient(to, async (target) => {
      let filled = 0
      const there = await columnsByTable(source)
      await target.query('begin; set local session_replication_role = replica')
      for (const [table, columns] of await columnsByTable(target)) {
        if (table === '_prisma_migrations') continue
        const since = GONE_SINCE[table] ?? {}
        const has = (column: string) => there.get(table)?.includes(column)
        const known = columns.filter((column) => has(column) || column in since).join(', ')
        const asked = columns.flatMap((column) =>
          has(column) ? [column] : column in since ? [`${since[column]} as ${column}`] : [],
        )
        const { rows } = await source.query<{ all: string | null }>(
          `select json_agg(t)::text as all from (select ${asked.join(', ')} from ${table}) t`,
        )
        if (!rows[0]?.all) continue
        await target.query(
          `insert into ${table} (${known}) overriding system value
           select ${known} from json_populate_recordset(null::${table}, $1::json)`,
          [rows[0].all],
        )
        filled += 1
      }
      await target.query('commit')
      return filled
    }),
  )
}

async function columnsByTable(client: pg.Client): Promise<Map<string, string[]>> {
  const { rows } = await client.query<{ table: string; columns: string[] }>(
    `select table_name as table, array_agg(column_name::text order by ordinal_position) as columns
       from information_schema.columns where table_schema = 'public' group by table_name`,
  )
  return new Map(rows.map(({ table, columns }) => [table, columns]))
}
