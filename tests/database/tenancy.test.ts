import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { inChain } from '../../apps/api/src/foundation/database/in-chain.ts'
import { sqlState } from '../../apps/api/src/foundation/database/sql-state.ts'
import { KINDS } from '../support/databases.ts'
import { makeShop, receive, type Shop } from '../support/fixtures.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

describe.each(KINDS)('tenancy in the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let stranger: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    await receive(test.owner, shop)
    stranger = (await test.database.prisma.organization.create({ data: { name: 'Another chain' } })).id
  })
  afterAll(() => test.end())

  it('guards every table of a chain with the same policy, and every one has its column', async () => {
    const tables = await test.database.prisma.$queryRaw<
      { name: string; secured: boolean; policies: bigint; columns: bigint }[]
    >`
      select c.relname as name, c.relrowsecurity as secured,
             (select count(*) from pg_policy p where p.polrelid = c.oid and p.polname = 'tenancy') as policies,
             (select count(*) from pg_attribute a where a.attrelid = c.oid and a.attname = 'organization_id' and a.attnotnull) as columns
        from pg_class c where c.relnamespace = 'public'::regnamespace and c.relkind = 'r'`
    const unguarded = tables.filter(
      ({ secured, policies, columns }) => !secured || policies !== 1n || columns !== 1n,
    )
    // Back-off is counted before anybody's chain is known, and the role of a chain has no right on it.
    expect(unguarded.map(({ name }) => name).toSorted()).toEqual([
      '_prisma_migrations',
      'organization',
      'sign_in_back_off',
    ])
    expect(tables.length).toBeGreaterThan(25)
  })

  it('shows another chain nothing, and lets it change nothing', async () => {
    await inChain(test.database, stranger, async (tx) => {
      expect(await tx.cartridge.count()).toBe(0)
      expect(await tx.shop.count()).toBe(0)
      expect((await tx.cartridge.updateMany({ data: { state: 'discarded' } })).count).toBe(0)
    })
  })

  it('refuses a row for another chain, and a child that points into one', async () => {
    const me = await test.owner.read<{ organization: { id: string } }>('/v1/me')
    const foreign = inChain(test.database, stranger, (tx) =>
      tx.shop.create({ data: { organizationId: me.organization.id, name: 'Planted', timeZone: 'UTC' } }),
    )
    await expect(
      foreign.catch((error: unknown) => Promise.reject(new Error(sqlState(error)))),
    ).rejects.toThrow('42501')
    const child = inChain(test.database, stranger, (tx) =>
      tx.dispenser.create({
        data: { organizationId: stranger, shopId: shop.shopId, name: 'Planted', cartridgeForms: [] },
      }),
    )
    await expect(child.catch((error: unknown) => Promise.reject(new Error(sqlState(error))))).rejects.toThrow(
      '23503',
    )
  })

  it('has nothing to do with who failed to sign in', async () => {
    const seen = inChain(test.database, stranger, (tx) => tx.signInBackOff.count())
    await expect(seen.catch((error: unknown) => Promise.reject(new Error(sqlState(error))))).rejects.toThrow(
      '42501',
    )
  })

  it('sees nothing outside a chain', async () => {
    const seen = await test.database.prisma.$transaction(async (tx) => {
      await tx.$executeRaw`set local role clampclock_app`
      return tx.shop.count()
    })
    expect(seen).toBe(0)
    expect(await inChain(test.database, randomUUID(), (tx) => tx.shop.count())).toBe(0)
  })
})
