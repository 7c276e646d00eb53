import { readFile } from 'node:fs/promises'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { freshDatabase, type TestDatabase } from '../support/databases.ts'

const TYPES: Record<string, string> = {
  String: 'text',
  Int: 'int4',
  BigInt: 'int8',
  Float: 'float8',
  Boolean: 'bool',
  Json: 'jsonb',
  Bytes: 'bytea',
}

/** `table.column type null?` as Prisma's schema has it. */
async function prismaColumns(): Promise<string[]> {
  const text = await readFile(new URL('../../prisma/schema.prisma', import.meta.url), 'utf8')
  return [...text.matchAll(/^model \w+ \{\n([\s\S]*?)^\}/gm)].flatMap(([, body = '']) => {
    const table = /@@map\("(\w+)"\)/.exec(body)?.[1]
    return body.split('\n').flatMap((line) => {
      const field = /^\s+(\w+)\s+(String|Int|BigInt|Float|Boolean|Json|DateTime|Bytes)(\[\])?(\?)?(.*)$/.exec(
        line,
      )
      if (!field) return []
      const [, name = '', type = '', list = '', optional = '', rest = ''] = field
      const column = /@map\("(\w+)"\)/.exec(rest)?.[1] ?? name
      const native = rest.includes('@db.Uuid')
        ? 'uuid'
        : rest.includes('@db.Date')
          ? 'date'
          : type === 'DateTime'
            ? 'timestamptz'
            : TYPES[type]
      return [`${table}.${column} ${list ? '_' : ''}${native}${optional ? ' null' : ''}`]
    })
  })
}

describe('prisma/schema.prisma', () => {
  let test: TestDatabase
  beforeAll(async () => {
    test = await freshDatabase('embedded')
  })
  afterAll(() => test.end())

  it('has every column of the migrations, with its type, and no other', async () => {
    const rows = await test.database.prisma.$queryRaw<{ column: string }[]>`
      select table_name || '.' || column_name || ' ' || udt_name || case is_nullable when 'YES' then ' null' else '' end as column
        from information_schema.columns where table_schema = 'public' and table_name <> '_prisma_migrations'`
    expect((await prismaColumns()).toSorted()).toEqual(rows.map(({ column }) => column).toSorted())
  })

  it('stores every instant with its zone', async () => {
    const bare = await test.database.prisma.$queryRaw<{ name: string }[]>`
      select table_name || '.' || column_name as name from information_schema.columns
       where table_schema = 'public' and data_type = 'timestamp without time zone'`
    expect(bare).toEqual([])
  })
})
