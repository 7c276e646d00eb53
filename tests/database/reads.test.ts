import { randomUUID } from 'node:crypto'
import * as z from 'zod'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  defineRead,
  instant,
  readBeforeChain,
  readInChain,
} from '../../apps/api/src/foundation/database/read.ts'
import { freshDatabase, KINDS, type TestDatabase } from '../support/databases.ts'

const Shop = z.strictObject({ id: z.uuid(), name: z.string(), createdAt: instant, version: z.int() })
const columns = { id: 's.id', name: 's.name', createdAt: 's.created_at', version: 's.version' }
const SHOPS = defineRead(Shop, columns, 'from shop s where s.name like $1 order by s.name')

describe.each(KINDS)('a read past the ORM in the %s database', (kind) => {
  let test: TestDatabase
  let chains: string[]
  beforeAll(async () => {
    test = await freshDatabase(kind)
    const { organization, shop } = test.database.prisma
    chains = await Promise.all(
      ['One', 'Other'].map(async (name) => (await organization.create({ data: { name } })).id),
    )
    for (const organizationId of chains)
      for (const name of ['North', 'South'])
        await shop.create({ data: { organizationId, name, timeZone: 'UTC' } })
  })
  afterAll(() => test.end())

  it('sees the chain that it is asked for and no other, however many ask at once', async () => {
    const asked = Array.from({ length: 60 }, (_, i) => chains[i % 2]!)
    const own = new Map(
      await Promise.all(
        chains.map(
          async (id) =>
            [
              id,
              (await test.database.prisma.shop.findMany({ where: { organizationId: id } })).map((s) => s.id),
            ] as const,
        ),
      ),
    )
    await Promise.all(
      asked.map(async (chain) => {
        const rows = await readInChain(test.database, chain, SHOPS, ['%'])
        expect(rows.map(({ name }) => name)).toEqual(['North', 'South'])
        expect(rows.map(({ id }) => id).toSorted()).toEqual(own.get(chain)!.toSorted())
      }),
    )
    expect(await readInChain(test.database, randomUUID(), SHOPS, ['%'])).toEqual([])
  })

  it('leaves nothing behind: not the chain, nor after a statement that failed', async () => {
    const broken = defineRead(
      Shop,
      { ...columns, version: '1 / (length(s.name) - 5)' },
      'from shop s where $1 <> s.name',
    )
    for (let i = 0; i < 15; i += 1)
      await expect(readInChain(test.database, chains[0]!, broken, ['x'])).rejects.toThrow('division by zero')
    expect(await readInChain(test.database, chains[1]!, SHOPS, ['N%'])).toHaveLength(1)
    // Before a chain is entered the owner of the tables reads, so all of them are seen.
    expect(await readBeforeChain(test.database, SHOPS, ['N%'])).toHaveLength(2)
  })

  it('cannot write', async () => {
    const mode = defineRead(
      z.strictObject({ readOnly: z.string() }),
      { readOnly: `current_setting('transaction_read_only')` },
      '',
    )
    expect(await readInChain(test.database, chains[0]!, mode, [])).toEqual([{ readOnly: 'on' }])
  })

  it('is an error in tests where a row is not what its schema says', async () => {
    const less = defineRead(Shop, { ...columns, name: 'null' }, 'from shop s where $1 <> s.name')
    await expect(readInChain(test.database, chains[0]!, less, ['x'])).rejects.toThrow('expected string')
  })

  it('does not compile with a column missing or left over', () => {
    const refused = [
      // @ts-expect-error -- version is missing
      defineRead(Shop, { id: 's.id', name: 's.name', createdAt: 's.created_at' }, 'from shop s'),
      // @ts-expect-error -- nobody asked for the time zone
      defineRead(Shop, { id: '', name: '', createdAt: '', version: '', timeZone: '' }, 'from shop s'),
    ]
    expect(refused).toHaveLength(2)
  })
})
