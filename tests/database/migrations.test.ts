import { cp, mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, inject, it } from 'vitest'
import type { Database } from '../../apps/api/src/foundation/database/database.ts'
import { openEmbedded } from '../../apps/api/src/foundation/database/embedded.ts'
import { migrate } from '../../apps/api/src/foundation/database/migrate.ts'
import { openServer } from '../../apps/api/src/foundation/database/server.ts'
import { createDatabase, MIGRATIONS, withClient } from '../support/databases.ts'

const temporary = () => mkdtemp(join(tmpdir(), 'clampclock-test-'))

async function migratedFolder(): Promise<string> {
  const dataDir = await temporary()
  await cp(inject('embeddedTemplate'), dataDir, { recursive: true })
  return dataDir
}

async function tableNamed({ prisma }: Database, name: string): Promise<string | null> {
  const [row] = await prisma.$queryRaw<[{ known: string | null }]>`select to_regclass(${name})::text as known`
  return row.known
}

describe('migrations', () => {
  it('are applied once when six processes start at the same moment', async () => {
    const url = await createDatabase()
    const databases = await Promise.all(Array.from({ length: 6 }, () => openServer(url)))
    const applied = await Promise.all(databases.map((database) => migrate(database, MIGRATIONS)))
    await Promise.all(databases.map((database) => database.close()))
    const known = (await readdir(MIGRATIONS, { withFileTypes: true })).filter((entry) =>
      entry.isDirectory(),
    ).length
    await withClient(url, async (client) => {
      const { rows } = await client.query<{ names: number; all: number }>(
        'select count(distinct migration_name)::int as names, count(*)::int as all from _prisma_migrations',
      )
      expect(rows).toEqual([{ names: known, all: known }])
    })
    expect(applied.flat().length).toBeGreaterThanOrEqual(known)
  })

  it('refuse an edited file and an unknown one, and change nothing', async () => {
    const folder = await temporary()
    const dataDir = await migratedFolder()
    await cp(MIGRATIONS, folder, { recursive: true })
    const database = await openEmbedded(dataDir)
    try {
      await migrate(database, folder)
      const newest = (await readdir(folder)).toSorted().at(-1)!
      const file = join(folder, newest, 'migration.sql')
      await writeFile(file, 'create table planted (id int);')
      await expect(migrate(database, folder)).rejects.toThrow(/was edited after it had been applied/)
      await rm(join(folder, newest), { recursive: true })
      await expect(migrate(database, folder)).rejects.toThrow(/does not know: it belongs to a newer/)
      expect(await tableNamed(database, 'planted')).toBeNull()
    } finally {
      await database.close()
      await Promise.all([folder, dataDir].map((each) => rm(each, { recursive: true, force: true })))
    }
  })

  it('refuse one that sorts before what is applied, by the names of both, and change nothing', async () => {
    const folder = await temporary()
    const dataDir = await migratedFolder()
    await cp(MIGRATIONS, folder, { recursive: true })
    const newest = (await readdir(folder)).toSorted().at(-1)!
    const late = `${Number(newest.slice(0, 14)) - 1}_late`
    await mkdir(join(folder, late))
    await writeFile(join(folder, late, 'migration.sql'), 'create table planted (id int);')
    const database = await openEmbedded(dataDir)
    try {
      await expect(migrate(database, folder)).rejects.toThrow(`Migration ${late} sorts before ${newest}`)
      expect(await tableNamed(database, 'planted')).toBeNull()
    } finally {
      await database.close()
      await Promise.all([folder, dataDir].map((each) => rm(each, { recursive: true, force: true })))
    }
  })

  it('leave a database from before the baseline as it is, and say what to do', async () => {
    const folder = await temporary()
    const dataDir = await temporary()
    await mkdir(join(folder, '20261125080000_foundation'))
    await writeFile(
      join(folder, '20261125080000_foundation', 'migration.sql'),
      'create table organization (id int);',
    )
    const database = await openEmbedded(dataDir)
    try {
      await migrate(database, folder)
      await expect(migrate(database, MIGRATIONS)).rejects.toThrow(
        /from before 0\.2\.0.*left as it is.*rm -r data.*DATA_DIR/,
      )
      expect(await tableNamed(database, 'shop')).toBeNull()
      expect(await tableNamed(database, 'organization')).toBe('organization')
    } finally {
      await database.close()
      await Promise.all([folder, dataDir].map((each) => rm(each, { recursive: true, force: true })))
    }
  })

  it('leave no half when one fails', async () => {
    const folder = await temporary()
    const dataDir = await migratedFolder()
    await cp(MIGRATIONS, folder, { recursive: true })
    await cp(
      join(folder, (await readdir(folder)).filter((name) => /^\d/.test(name))[0]!),
      join(folder, '99990101000000_broken'),
      { recursive: true },
    )
    await writeFile(
      join(folder, '99990101000000_broken', 'migration.sql'),
      'create table half (id int); select 1/0;',
    )
    const database = await openEmbedded(dataDir)
    try {
      await expect(migrate(database, folder)).rejects.toThrow(/division by zero/)
      expect(await tableNamed(database, 'half')).toBeNull()
      expect(await tableNamed(database, 'shop')).toBe('shop')
    } finally {
      await database.close()
      await Promise.all([folder, dataDir].map((each) => rm(each, { recursive: true, force: true })))
    }
  })
})

describe('the data folder', () => {
  it('is refused to a second process with a sentence that helps', async () => {
    const dataDir = await migratedFolder()
    const first = await openEmbedded(dataDir)
    try {
      await expect(openEmbedded(dataDir)).rejects.toThrow(/is in use by another Clampclock.*DATA_DIR/)
    } finally {
      await first.close()
    }
    const second = await openEmbedded(dataDir)
    await second.close()
    await rm(dataDir, { recursive: true, force: true })
  })
})

describe('instants', () => {
  it('are the same to a second client, in a database whose zone is New York', async () => {
    const url = await createDatabase()
    const database = await openServer(url)
    try {
      await migrate(database, MIGRATIONS)
      const eight = new Date('2031-05-07T08:00:00Z')
      const { id } = await database.prisma.organization.create({ data: { name: 'Zone', createdAt: eight } })
      await withClient(url, async (client) => {
        await client.query(`set timezone = 'UTC'`)
        const { rows } = await client.query<{ at: string }>(
          'select created_at::text as at from organization where id = $1',
          [id],
        )
        expect(rows[0]?.at).toBe('2031-05-07 08:00:00+00')
        await client.query(`update organization set created_at = '2031-05-07T09:30:00Z' where id = $1`, [id])
      })
      const read = await database.prisma.organization.findUniqueOrThrow({ where: { id } })
      expect(read.createdAt.toISOString()).toBe('2031-05-07T09:30:00.000Z')
      const [raw] = await database.prisma.$queryRaw<
        { at: Date }[]
      >`select created_at as at from organization where created_at = ${read.createdAt}::timestamptz`
      expect(raw?.at.toISOString()).toBe('2031-05-07T09:30:00.000Z')
    } finally {
      await database.close()
    }
  })
})
