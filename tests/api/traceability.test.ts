import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, type Shop } from '../support/fixtures.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

interface Document {
  readonly epcisBody: {
    readonly eventList: readonly {
      readonly type: string
      readonly bizStep: string
      readonly epcList?: readonly string[]
      readonly parentID?: string
      readonly childQuantityList?: readonly { readonly epcClass: string; readonly quantity: number }[]
      readonly bizTransactionList?: readonly { readonly bizTransaction: string }[]
    }[]
  }
}

describe.each(ONE_KIND)('traceability out, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let lotId: string
  let orderId: string
  let jointId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    const [piece] = await receive(test.owner, shop, { lotNumber: '=TRACED', cartridges: 2 })
    const made = await makeJoint(test.owner, shop)
    orderId = made.orderId
    jointId = made.jointId
    await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id, { amountMl: 55 }))
    const lots = await test.owner.read<{ items: { id: string }[] }>('/v1/lots?lotNumber=%3DTRACED')
    lotId = lots.items[0]!.id
    await test.owner.made(`/v1/lots/${lotId}/hold`, { reason: 'Cracked pistons' })
  })
  afterAll(() => test.end())
  const read = async (path: string) => {
    const { status, headers, text, body } = await test.owner
      .get(path)
      .buffer()
      .parse((response, done) => {
        let all = ''
        response.setEncoding('utf8')
        response.on('data', (chunk: string) => (all += chunk))
        response.on('end', () => done(null, all))
      })
    expect(status).toBe(200)
    return { type: String(headers['content-type']), text: text ?? String(body) }
  }

  it('tells a lot’s life as EPCIS events: in, opened, used, in the joint, held', async () => {
    const { type, text } = await read(`/v1/lots/${lotId}/epcis`)
    expect(type).toContain('application/ld+json')
    const { eventList } = (JSON.parse(text) as Document).epcisBody
    expect(eventList.map(({ bizStep }) => bizStep).toSorted()).toEqual([
      'commissioning',
      'commissioning',
      'dispensing',
      'holding',
      'installing',
      'unpacking',
    ])
    const into = eventList.find(({ type: each }) => each === 'AssociationEvent')!
    expect(into).toMatchObject({
      parentID: `urn:uuid:${jointId}`,
      childQuantityList: [{ epcClass: `urn:uuid:${lotId}`, quantity: 55, uom: 'MLT' }],
      bizTransactionList: [{ type: 'prodorder', bizTransaction: `urn:uuid:${orderId}` }],
    })
  })

  it('tells what is in a vehicle, and nothing else', async () => {
    const { eventList } = (JSON.parse((await read(`/v1/repairOrders/${orderId}/epcis`)).text) as Document)
      .epcisBody
    expect(eventList.map(({ bizStep }) => bizStep).toSorted()).toEqual(['dispensing', 'installing'])
  })

  it('gives both as CSV, with what a spreadsheet would run disarmed', async () => {
    const { type, text } = await read(`/v1/lots/${lotId}/life.csv`)
    expect(type).toContain('text/csv')
    const lines = text.trim().split('\r\n')
    expect(lines).toHaveLength(5)
    expect(lines[0]).toContain('At (UTC),What,Product,Lot')
    expect(lines[1]).toContain("'=TRACED")
    const vehicle = await read(`/v1/repairOrders/${orderId}/adhesives.csv`)
    expect(vehicle.text.trim().split('\r\n')).toHaveLength(2)
    expect(vehicle.text).toContain('-55')
  })

  it('says when there is no such lot or repair order', async () => {
    for (const path of ['lots', 'repairOrders'])
      expect((await test.owner.get(`/v1/${path}/${shop.shopId}/epcis`)).status).toBe(404)
  })
})
