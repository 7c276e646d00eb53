import { createHash, randomUUID } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Database } from './database.ts'

interface Migration {
  readonly name: string
  readonly sql: string
  readonly checksum: string
}

/** Prisma's own bookkeeping table, so that `prisma migrate` can take over where its engine can be downloaded. */
const BOOKKEEPING = `
  create table if not exists _prisma_migrations (
    id                  varchar(36) primary key not null,
    checksum            varchar(64) not null,
    finished_at         timestamptz,
    migration_name      varchar(255) not null,
    logs                text,
    rolled_back_at      timestamptz,
    started_at          timestamptz not null default now(),
    applied_steps_count integer not null default 0
  );`

/** Any number will do, as long as every process takes the same one. */
const MIGRATION_LOCK = 7_246_001

/** Before 0.2.0 nothing had been released: those tables are not carried on. */
const FROM_BEFORE_THE_BASELINE =
  'The database was made by a Clampclock from before 0.2.0 (migration %), and cannot be brought to this one. It was left as it is. If there was only the demo in it: remove the data folder (rm -r data), or name another one with DATA_DIR or another database with DATABASE_URL, and start again'

/**
 * Brings the database to the newest schema, and answers the names of the migrations it applied. All of them go in
 * one transaction behind an advisory lock: of several processes that start at once one migrates and the others find it
 * done, and a crash leaves the schema as it was.
 *
 * @throws {Error} When a migration that was applied has been edited since or is not known to this program, and when one
 *   that is still to be applied sorts before one that is: nobody would have tried the schema that this makes.
 */
export async function migrate(database: Database, folder: string): Promise<string[]> {
  const migrations = await readMigrations(folder)
  const statements = [
    `select pg_advisory_xact_lock(${MIGRATION_LOCK});`,
    BOOKKEEPING,
    historyChecked(migrations),
    ...migrations.map((migration) => onceOnly(migration)),
  ]
  const before = await appliedNames(database)
  try {
    await database.execute(`begin;\n${statements.join('\n')}\ncommit;`)
  } catch (error) {
    await database.execute('rollback').catch(() => undefined)
    throw error
  }
  const after = await appliedNames(database)
  return after.filter((name) => !before.includes(name))
}

async function readMigrations(folder: string): Promise<Migration[]> {
  const entries = await readdir(folder, { withFileTypes: true })
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name)
  return Promise.all(
    names.toSorted().map(async (name) => {
      const sql = await readFile(join(folder, name, 'migration.sql'), 'utf8')
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') }
    }),
  )
}

/** What was applied before is held against the folder first, so that nothing is changed where the two do not fit. */
function historyChecked(migrations: readonly Migration[]): string {
  const known = migrations.map(({ name, checksum }) => `('${name}', '${checksum}')`).join(', ')
  return `
    do $guard$
    declare
      fault record;
    begin
      create temporary table known_migration (name text, checksum text) on commit drop;
      insert into known_migration values ${known};

      select migration_name as name, migration_name collate "C" < (select min(name collate "C") from known_migration) as is_older into fault
        from _prisma_migrations
       where rolled_back_at is null and migration_name not in (select name from known_migration)
       order by migration_name collate "C" limit 1;
      if fault.is_older then
        raise exception '${FROM_BEFORE_THE_BASELINE}', fault.name;
      elsif found then
        raise exception 'The database has migration %, which this program does not know: it belongs to a newer Clampclock', fault.name;
      end if;

      select k.name into fault from known_migration k join _prisma_migrations m on m.migration_name = k.name
       where m.rolled_back_at is null and m.checksum <> k.checksum limit 1;
      if found then
        raise exception 'Migration % was edited after it had been applied: restore it, and add a new one instead', fault.name;
      end if;

      select k.name, newest.name as newest into fault from known_migration k,
             (select max(migration_name collate "C") as name from _prisma_migrations where rolled_back_at is null) newest
       where k.name collate "C" < newest.name
         and not exists (select from _prisma_migrations m where m.migration_name = k.name and m.rolled_back_at is null)
       order by k.name collate "C" limit 1;
      if found then
        raise exception 'Migration % sorts before %, which is applied already: give it a later time in its name', fault.name, fault.newest;
      end if;
    end
    $guard$;`
}

/** The migration, wrapped so that the database itself decides, under the lock, whether it is still to be applied. */
function onceOnly({ name, sql, checksum }: Migration): string {
  const body = dollarQuoted(sql)
  return `
    do $guard$
    begin
      if not exists (select from _prisma_migrations where migration_name = '${name}' and rolled_back_at is null) then
        execute ${body};
        insert into _prisma_migrations (id, checksum, finished_at, migration_name, applied_steps_count)
        values ('${randomUUID()}', '${checksum}', now(), '${name}', 1);
      end if;
    end
    $guard$;`
}

/** `execute` takes the whole file as one string; the tag is one that no file contains. */
function dollarQuoted(sql: string): string {
  const tag = `$m${createHash('sha256').update(sql).digest('hex').slice(0, 12)}$`
  return `${tag}${sql}${tag}`
}

async function appliedNames(database: Database): Promise<string[]> {
  const [row] = await database.prisma.$queryRaw<
    [{ there: boolean }]
  >`select to_regclass('_prisma_migrations') is not null as there`
  if (!row.there) return []
  const rows = await database.prisma.$queryRaw<{ migration_name: string }[]>`
    select migration_name from _prisma_migrations where finished_at is not null and rolled_back_at is null order by migration_name`
  return rows.map((each) => each.migration_name)
}
