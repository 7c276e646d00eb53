import { describe, expect, it } from 'vitest'
import { epcisDocument } from './document.ts'
import { holdEvent, movementEvents } from './event.ts'
import type { TracedHold, TracedMovement } from './facts.ts'

const AT = '2031-05-07T10:00:00.000-06:00'
const lot = { id: 'lot-1', lotNumber: 'AB/12', gtin: '09506000134352', printedExpiry: '2031-12-31' }
const LOT_URI = 'https://id.gs1.org/01/09506000134352/10/AB%2F12'
const joint = { id: 'joint-1', repairOrderId: 'order-1' }
const shipment = { id: 'shipment-1', fromShopId: 'shop-1', toShopId: 'shop-2' }
const base: TracedMovement = {
  id: '7',
  kind: 'opened',
  atMs: Date.parse(AT),
  timeZone: 'America/Denver',
  cartridge: { id: 'cartridge-1', code: '4F7K-92QX' },
  pieces: 0,
  volumeChangeMl: 0,
  shopId: 'shop-1',
  locationId: null,
  recordedBy: 'Petra Parts',
  reason: 'Because',
  joint: null,
  shipment: null,
  lot,
}
const eventsOf = (changes: Partial<TracedMovement>) =>
  movementEvents({ ...base, ...changes }, { publicUrl: undefined })

/** What is the same in every event of `base`. */
const OBJECT = {
  type: 'ObjectEvent',
  eventID: 'urn:clampclock:event:7:object',
  eventTime: AT,
  eventTimeZoneOffset: '-06:00',
  epcList: ['urn:uuid:cartridge-1'],
  readPoint: { id: 'urn:uuid:shop-1' },
  'clampclock:recordedBy': 'Petra Parts',
  'clampclock:reason': 'Because',
}
const AT_SHOP = { bizLocation: { id: 'urn:uuid:shop-1' } }

describe('a movement as an event', () => {
  // Business steps and dispositions of the Core Business Vocabulary 2.0 (GS1), sections 7.1 and 7.2, as the ledger uses them.
  it.each([
    ['opened', 'OBSERVE', 'unpacking', 'container_open', AT_SHOP],
    ['used', 'OBSERVE', 'dispensing', 'partially_dispensed', AT_SHOP],
    ['emptied', 'DELETE', 'decommissioning', 'inactive', AT_SHOP],
    ['discarded', 'DELETE', 'destroying', 'disposed', AT_SHOP],
    ['sent', 'OBSERVE', 'shipping', 'in_transit', {}],
    ['arrived', 'OBSERVE', 'receiving', 'available', AT_SHOP],
    ['moved', 'OBSERVE', 'storing', 'available', AT_SHOP],
    ['lost', 'OBSERVE', 'inspecting', 'unknown', {}],
  ] as const)('%s: %s, %s, %s', (kind, action, bizStep, disposition, place) => {
    expect(eventsOf({ kind })).toEqual([{ ...OBJECT, action, bizStep, disposition, ...place }])
  })

  it('that begins a life tells of its lot, and only that one', () => {
    expect(eventsOf({ kind: 'received', pieces: 1, locationId: 'shelf-1' })).toEqual([
      {
        ...OBJECT,
        action: 'ADD',
        bizStep: 'commissioning',
        disposition: 'active',
        bizLocation: { id: 'urn:uuid:shelf-1' },
        ilmd: { 'cbvmda:lotNumber': 'AB/12', 'cbvmda:itemExpirationDate': '2031-12-31' },
      },
    ])
  })

  it.each([
    [-1, 'unknown'],
    [1, 'available'],
    [0, 'available'],
  ])('of a count that finds %d pieces more leaves it %s', (pieces, disposition) => {
    expect(eventsOf({ kind: 'corrected', pieces })).toEqual([
      { ...OBJECT, action: 'OBSERVE', bizStep: 'stock_taking', disposition, ...AT_SHOP },
    ])
  })

  it('into a joint is two events: what the cartridge gave, and what the joint holds since', () => {
    const order = { bizTransactionList: [{ type: 'prodorder', bizTransaction: 'urn:uuid:order-1' }] }
    expect(eventsOf({ kind: 'used', volumeChangeMl: -62.5, joint })).toEqual([
      {
        ...OBJECT,
        action: 'OBSERVE',
        bizStep: 'dispensing',
        disposition: 'partially_dispensed',
        ...AT_SHOP,
        ...order,
      },
      {
        type: 'AssociationEvent',
        eventID: 'urn:clampclock:event:7:association',
        eventTime: AT,
        eventTimeZoneOffset: '-06:00',
        action: 'ADD',
        bizStep: 'installing',
        disposition: 'active',
        parentID: 'urn:uuid:joint-1',
        childQuantityList: [{ epcClass: LOT_URI, quantity: 62.5, uom: 'MLT' }],
        readPoint: { id: 'urn:uuid:shop-1' },
        ...order,
        'clampclock:recordedBy': 'Petra Parts',
        'clampclock:reason': 'Because',
      },
    ])
    // What is not used puts nothing into a joint, whatever it is told for.
    expect(eventsOf({ kind: 'opened', joint })).toHaveLength(1)
  })

  it('between two shops names both, and the despatch advice', () => {
    const [event] = eventsOf({ kind: 'arrived', shopId: 'shop-2', shipment })
    expect(event).toEqual({
      ...OBJECT,
      action: 'OBSERVE',
      bizStep: 'receiving',
      disposition: 'available',
      readPoint: { id: 'urn:uuid:shop-2' },
      bizLocation: { id: 'urn:uuid:shop-2' },
      bizTransactionList: [{ type: 'desadv', bizTransaction: 'urn:uuid:shipment-1' }],
      sourceList: [{ type: 'location', source: 'urn:uuid:shop-1' }],
      destinationList: [{ type: 'location', destination: 'urn:uuid:shop-2' }],
    })
  })

  it.each([
    ['https://stock.example', 'https://stock.example/c/4F7K-92QX'],
    ['https://stock.example//', 'https://stock.example/c/4F7K-92QX'],
  ])('names a cartridge by our own label at %s', (publicUrl, uri) => {
    expect(movementEvents(base, { publicUrl })[0]!['epcList']).toEqual([uri])
  })

  it('names a lot without a GTIN by its own identifier', () => {
    const events = eventsOf({ kind: 'used', volumeChangeMl: -1, joint, lot: { ...lot, gtin: null } })
    expect(events[1]!['childQuantityList']).toEqual([{ epcClass: 'urn:uuid:lot-1', quantity: 1, uom: 'MLT' }])
  })
})

describe('a hold as an event', () => {
  const hold: TracedHold = {
    id: '9',
    kind: 'held',
    atMs: Date.parse(AT),
    timeZone: 'America/Denver',
    recordedBy: 'Petra Parts',
    reason: 'Cracked pistons',
    lot,
  }
  it.each([
    ['held', 'holding', 'unavailable'],
    ['ended', 'inspecting', 'available'],
    ['scrapped', 'inspecting', 'non_conformant'],
  ] as const)('%s: %s, %s, of the whole lot', (kind, bizStep, disposition) => {
    expect(holdEvent({ ...hold, kind })).toEqual({
      type: 'ObjectEvent',
      eventID: 'urn:clampclock:event:9:hold',
      eventTime: AT,
      eventTimeZoneOffset: '-06:00',
      action: 'OBSERVE',
      bizStep,
      disposition,
      quantityList: [{ epcClass: LOT_URI }],
      'clampclock:recordedBy': 'Petra Parts',
      'clampclock:reason': 'Cracked pistons',
    })
  })
})

describe('a document', () => {
  it('is of EPCIS 2.0, with its events in the order in which they happened', () => {
    const at = (id: string, hours: number) => eventsOf({ id, atMs: base.atMs + hours * 3_600_000 })[0]!
    const [first, second, third] = [at('a', 0), at('b', 1), at('c', 2)]
    expect(epcisDocument([third, first, second], Date.parse('2031-06-01T00:00:00Z'))).toEqual({
      '@context': [
        'https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld',
        { clampclock: 'urn:clampclock:epcis:' },
      ],
      type: 'EPCISDocument',
      schemaVersion: '2.0',
      creationDate: '2031-06-01T00:00:00.000Z',
      epcisBody: { eventList: [first, second, third] },
    })
  })
})
