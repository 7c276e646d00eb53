import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { makeShop, PRODUCT, receive, SHEET, type Shop } from '../support/fixtures.ts'
import { Client, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

interface Membership {
  readonly shopId: string | null
  readonly role: string
}

describe('who may act on the chain', () => {
  let test: TestApp
  let here: Shop
  let elsewhere: Shop
  let ownerHere: Client
  let ownerHereId: string
  let partsHere: Client
  let serial = 0

  beforeAll(async () => {
    test = await startTestApp('embedded')
    here = await makeShop(test.owner)
    elsewhere = await makeShop(test.owner)
    ownerHereId = await person([{ shopId: here.shopId, role: 'owner' }], 'owner-here@test.example')
    ownerHere = await test.signIn('owner-here@test.example')
    await person([{ shopId: here.shopId, role: 'partsManager' }], 'parts-here@test.example')
    partsHere = await test.signIn('parts-here@test.example')
  })
  afterAll(() => test.end())

  async function person(memberships: readonly Membership[], email?: string): Promise<string> {
    serial += 1
    const { id } = await test.owner.made('/v1/people', {
      name: `Person ${serial}`,
      email: email ?? `person-${serial}@test.example`,
      password: PASSWORD,
      memberships,
    })
    return id
  }
  const refused = async (sent: PromiseLike<{ status: number; body: { type: string; detail: string } }>) => {
    const { status, body } = await sent
    expect([status, body.type], JSON.stringify(body)).toEqual([403, '/problems/not-permitted'])
    return body
  }
  const membershipsOf = async (id: string) => {
    const { items } = await test.owner.read<{ items: { id: string; memberships: Membership[] }[] }>(
      '/v1/people',
    )
    return items.find((each) => each.id === id)!.memberships
  }

  it('an owner of one shop makes nobody, himself least, owner of every shop or of another one', async () => {
    const path = `/v1/people/${ownerHereId}`
    await refused(ownerHere.patch(path, { memberships: [{ shopId: null, role: 'owner' }] }, 1))
    await refused(
      ownerHere.patch(
        path,
        {
          memberships: [
            { shopId: here.shopId, role: 'owner' },
            { shopId: elsewhere.shopId, role: 'viewer' },
          ],
        },
        1,
      ),
    )
    expect(await membershipsOf(ownerHereId)).toEqual([{ shopId: here.shopId, role: 'owner' }])
    const stranger = { name: 'Stranger', email: 'stranger@test.example', password: PASSWORD }
    for (const shopId of [null, elsewhere.shopId]) {
      const body = await refused(
        ownerHere.post('/v1/people', { ...stranger, memberships: [{ shopId, role: 'viewer' }] }),
      )
      expect(body.detail).toMatch(/every shop|Shop \d/)
    }
  })

  it('an owner of one shop touches neither name, password, roles nor door of who has more', async () => {
    const me = await test.owner.read<{ id: string }>('/v1/me')
    const both = await person([
      { shopId: here.shopId, role: 'technician' },
      { shopId: elsewhere.shopId, role: 'viewer' },
    ])
    for (const id of [me.id, both, await person([{ shopId: elsewhere.shopId, role: 'technician' }])]) {
      for (const change of [{ password: 'another password entirely' }, { disabled: true }, { name: 'X' }])
        await refused(ownerHere.patch(`/v1/people/${id}`, change, 1))
      await refused(
        ownerHere.patch(`/v1/people/${id}`, { memberships: [{ shopId: here.shopId, role: 'viewer' }] }, 1),
      )
    }
    await test.signIn('owner@test.example')
    expect(await membershipsOf(both)).toHaveLength(2)
  })

  it('an owner of one shop keeps the people of his own shop', async () => {
    const { id } = await ownerHere.made('/v1/people', {
      name: 'New hand',
      email: 'new-hand@test.example',
      password: PASSWORD,
      memberships: [{ shopId: here.shopId, role: 'technician' }],
    })
    const changed = await ownerHere.patch(
      `/v1/people/${id}`,
      {
        name: 'New name',
        password: 'another password entirely',
        memberships: [{ shopId: here.shopId, role: 'scheduler' }],
        disabled: true,
      },
      1,
    )
    expect(changed.status).toBe(200)
    // Of somebody who works elsewhere too, he changes what they are in his shop.
    const both = await person([
      { shopId: here.shopId, role: 'technician' },
      { shopId: elsewhere.shopId, role: 'viewer' },
    ])
    const promoted = await ownerHere.patch(
      `/v1/people/${both}`,
      {
        memberships: [
          { shopId: here.shopId, role: 'scheduler' },
          { shopId: elsewhere.shopId, role: 'viewer' },
        ],
      },
      1,
    )
    expect(promoted.status).toBe(200)
  })

  it('an owner of one shop sees who works there or in every shop, and nobody else', async () => {
    const there = await person([{ shopId: elsewhere.shopId, role: 'viewer' }])
    const both = await person([
      { shopId: here.shopId, role: 'technician' },
      { shopId: elsewhere.shopId, role: 'viewer' },
    ])
    const chain = await person([{ shopId: null, role: 'viewer' }])
    const idsOf = async (client: Client) => {
      const { items } = await client.read<{ items: { id: string }[] }>('/v1/people')
      return new Set(items.map(({ id }) => id))
    }
    const [seen, all] = [await idsOf(ownerHere), await idsOf(test.owner)]
    expect([both, chain, there].map((id) => seen.has(id))).toEqual([true, true, false])
    expect([both, chain, there].every((id) => all.has(id))).toBe(true)
  })

  it('an owner of one shop makes, sees and revokes the tokens of that shop only', async () => {
    await refused(ownerHere.post('/v1/accessTokens', { name: 'All', scope: 'integration' }))
    await refused(
      ownerHere.post('/v1/accessTokens', { name: 'There', scope: 'sensor', shopId: elsewhere.shopId }),
    )
    const mine = await ownerHere.made('/v1/accessTokens', {
      name: 'Here',
      scope: 'sensor',
      shopId: here.shopId,
    })
    const ofChain = await test.owner.made('/v1/accessTokens', { name: 'Chain', scope: 'integration' })
    const { items } = await ownerHere.read<{ items: { id: string }[] }>('/v1/accessTokens')
    expect(items.map(({ id }) => id)).toEqual([mine.id])
    expect((await ownerHere.delete(`/v1/accessTokens/${ofChain.id}`)).status).toBe(404)
    expect((await ownerHere.delete(`/v1/accessTokens/${mine.id}`)).status).toBe(204)
  })

  it('a data sheet, a product, a GTIN and a supplier count for the chain: only by somebody of the chain', async () => {
    for (const client of [ownerHere, partsHere]) {
      await refused(client.post('/v1/products', { ...PRODUCT, name: 'Mine' }))
      await refused(client.post(`/v1/products/${here.productId}/sheets`, { ...SHEET, revision: 'Faster' }))
      await refused(client.post(`/v1/products/${here.productId}/gtins`, { gtin: '00000000000017' }))
      await refused(client.post('/v1/suppliers', { name: 'Mine', currency: 'EUR' }))
    }
    await person([{ shopId: null, role: 'partsManager' }], 'parts@test.example')
    const parts = await test.signIn('parts@test.example')
    const added = await parts.post(`/v1/products/${here.productId}/sheets`, { ...SHEET, revision: 'B' })
    expect(added.status).toBe(201)
  })

  it('a delivery teaches the chain a GTIN only by somebody of the chain', async () => {
    const locationId = here.locationId
    const receipt = {
      productId: here.productId,
      lotNumber: 'GTIN-1',
      printedExpiry: { date: '2032-05-31' },
      cartridges: 1,
      locationId,
      gtin: '00000000000017',
    }
    const sent = await partsHere.post(`/v1/shops/${here.shopId}/receipts`, receipt)
    expect(sent.status, JSON.stringify(sent.body)).toBe(201)
    expect(sent.body.warnings.join()).toContain('GTIN is not remembered')
    const { items } = await test.owner.read<{ items: object[] }>(`/v1/products/${here.productId}/gtins`)
    expect(items).toEqual([])
  })

  it('a hold ends by who has a say in every shop where the lot lies, and begins by who has it in one', async () => {
    const lotNumber = 'BOTH-1'
    await receive(test.owner, here, { lotNumber })
    await receive(test.owner, { ...elsewhere, productId: here.productId }, { lotNumber })
    const lots = await test.owner.read<{ items: { id: string; lotNumber: string }[] }>('/v1/lots')
    const lot = lots.items.find((each) => each.lotNumber === lotNumber)!
    await partsHere.made(`/v1/lots/${lot.id}/hold`, { reason: 'The maker called it back' })
    const body = await refused(
      partsHere.post(`/v1/lots/${lot.id}/holdEnd`, { reason: 'Looks good to me here' }),
    )
    expect(body.detail).toContain('every shop')
    expect((await test.owner.read<{ hold: object | null }>(`/v1/lots/${lot.id}`)).hold).not.toBeNull()
    await refused(partsHere.post(`/v1/lots/${lot.id}/scrapping`, { reason: 'Away with all of it' }))
    await test.owner.made(`/v1/lots/${lot.id}/holdEnd`, { reason: 'The maker says it is good' })
  })

  it('nobody holds a lot that never lay in a shop of theirs', async () => {
    await receive(test.owner, elsewhere, { lotNumber: 'THERE-1' })
    const lots = await test.owner.read<{ items: { id: string; lotNumber: string }[] }>('/v1/lots')
    const lot = lots.items.find((each) => each.lotNumber === 'THERE-1')!
    await refused(partsHere.post(`/v1/lots/${lot.id}/hold`, { reason: 'None of my business' }))
    expect((await test.owner.read<{ hold: object | null }>(`/v1/lots/${lot.id}`)).hold).toBeNull()
  })
})
