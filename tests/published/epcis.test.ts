import { readFileSync } from 'node:fs'
import Ajv from 'ajv'
import addFormats from 'ajv-formats'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  epcisDocument,
  holdEvent,
  movementEvents,
  type EpcisEvent,
  type TracedHold,
  type TracedMovement,
} from '@clampclock/stock'

/** Path of the standard's own JSON schema (EPCIS 2.0, GS1; its terms keep it out of this repository). */
const schemaPath = process.env['EPCIS_SCHEMA']

const NOW = Date.UTC(2031, 4, 7, 16)
const HOUR = 3_600_000
const lot = {
  id: '5b1a3c1e-0f7e-4c57-9a0f-0d2f6f1f0a01',
  lotNumber: 'AB/12 3',
  gtin: '09506000134352',
  printedExpiry: '2031-12-31',
}
const uuid = (n: number) => `5b1a3c1e-0f7e-4c57-9a0f-${String(n).padStart(12, '0')}`
const joint = { id: uuid(900), repairOrderId: uuid(901) }
const shipment = { id: uuid(800), fromShopId: uuid(1), toShopId: uuid(2) }

let serial = 0
const movement = (
  kind: TracedMovement['kind'],
  hours: number,
  changes: Partial<TracedMovement> = {},
): TracedMovement => ({
  id: String((serial += 1)),
  kind,
  atMs: NOW - 200 * HOUR + hours * HOUR,
  timeZone: 'America/Denver',
  cartridge: { id: uuid(10), code: '4F7K-92QX' },
  pieces: 0,
  volumeChangeMl: 0,
  shopId: uuid(1),
  locationId: null,
  recordedBy: 'Petra Parts',
  reason: 'Because',
  joint: null,
  shipment: null,
  lot,
  ...changes,
})

/** One cartridge from the door to the bin, and another that is lost on the way. */
const LIFE: readonly TracedMovement[] = [
  movement('received', 0, { pieces: 1, volumeChangeMl: 200, locationId: uuid(3) }),
  movement('moved', 5, { locationId: uuid(4) }),
  movement('sent', 10, { pieces: -1, volumeChangeMl: -200, shipment }),
  movement('arrived', 30, { pieces: 1, volumeChangeMl: 200, shopId: uuid(2), shipment }),
  movement('opened', 40, { shopId: uuid(2) }),
  movement('used', 41, { shopId: uuid(2), volumeChangeMl: -62.5, joint }),
  movement('corrected', 60, { shopId: uuid(2), volumeChangeMl: -10 }),
  movement('discarded', 90, { shopId: uuid(2), pieces: -1, volumeChangeMl: -127.5 }),
]
const HOLD: TracedHold = {
  id: uuid(700),
  kind: 'held',
  atMs: NOW - 20 * HOUR,
  timeZone: 'America/Denver',
  recordedBy: 'Petra Parts',
  reason: 'Cracked pistons',
  lot,
}

const documentOf = (life: readonly TracedMovement[], publicUrl?: string) =>
  epcisDocument(
    [
      ...life.flatMap((each) => movementEvents(each, { publicUrl })),
      holdEvent(HOLD),
      holdEvent({ ...HOLD, kind: 'ended', id: uuid(701) }),
    ],
    NOW,
  ) as { epcisBody: { eventList: EpcisEvent[] } }

describe('EPCIS 2.0 documents', () => {
  const validate = () => {
    const ajv = new Ajv({ strict: false, allErrors: true })
    addFormats(ajv)
    return ajv.compile(JSON.parse(readFileSync(schemaPath!, 'utf8')) as object)
  }

  it.skipIf(!schemaPath)(
    'are valid by the JSON schema of the standard (set EPCIS_SCHEMA to its path)',
    () => {
      const check = validate()
      for (const publicUrl of [undefined, 'https://stock.example/'])
        for (const document of [documentOf(LIFE, publicUrl), documentOf([])]) {
          check(document)
          expect(check.errors ?? []).toEqual([])
        }
      // So that the check above can fail.
      expect(check({ ...documentOf(LIFE), schemaVersion: 2 })).toBe(false)
      const [first] = documentOf(LIFE).epcisBody.eventList
      const wrong = { ...documentOf([]), epcisBody: { eventList: [{ ...first, action: 'CHANGE' }] } }
      expect(check(wrong)).toBe(false)
    },
  )

  it('identify lots by GTIN and batch (GS1 Digital Link), percent-encoded, and cartridges by our own label', () => {
    const events = documentOf(LIFE, 'https://stock.example/').epcisBody.eventList
    const used = events.find(({ type }) => type === 'AssociationEvent')!
    expect(used['childQuantityList']).toEqual([
      { epcClass: 'https://id.gs1.org/01/09506000134352/10/AB%2F12%203', quantity: 62.5, uom: 'MLT' },
    ])
    expect(events[0]!['epcList']).toEqual(['https://stock.example/c/4F7K-92QX'])
  })

  it('keep what the schema cannot say (EPCIS 2.0 section 7.4, CBV 2.0, from memory)', () => {
    const kinds = [
      'received',
      'opened',
      'used',
      'emptied',
      'discarded',
      'corrected',
      'sent',
      'arrived',
      'moved',
      'lost',
    ] as const
    const lives = fc.array(
      fc.record({
        kind: fc.constantFrom(...kinds),
        hours: fc.integer({ min: 0, max: 199 }),
        isJoint: fc.boolean(),
      }),
      { maxLength: 12 },
    )
    fc.assert(
      fc.property(lives, (rows) => {
        const life = rows.map(({ kind, hours, isJoint }) =>
          movement(kind, hours, { volumeChangeMl: -5, ...(isJoint ? { joint } : {}) }),
        )
        const { eventList } = documentOf(life).epcisBody
        const times = eventList.map(({ eventTime }) => Date.parse(eventTime))
        expect(times).toEqual(times.toSorted((a, b) => a - b))
        expect(new Set(eventList.map((event) => event['eventID'])).size).toBe(eventList.length)
        for (const event of eventList) {
          // Master data of an instance or lot goes with its commissioning only.
          expect('ilmd' in event).toBe(event.type === 'ObjectEvent' && event['action'] === 'ADD')
          // The offset is that of the place, and of the time as it is written.
          expect(event.eventTime.endsWith(String(event['eventTimeZoneOffset']))).toBe(true)
          // An association that is added has a parent and children.
          if (event.type === 'AssociationEvent') {
            expect(event['parentID']).toBeTruthy()
            expect(event['childQuantityList']).toHaveLength(1)
          }
          // An amount has a unit; a class named without an amount is all of it.
          for (const list of ['quantityList', 'childQuantityList'] as const)
            for (const { quantity, uom } of (event[list] ?? []) as { quantity?: number; uom?: string }[])
              expect(quantity === undefined).toBe(uom === undefined)
          // What is on its way is at no business location.
          if (event['disposition'] === 'in_transit') expect('bizLocation' in event).toBe(false)
        }
      }),
    )
  })

  it('write the offset of the shop, through daylight saving (Denver 2031: -06:00 from 9 March)', () => {
    const at = (iso: string) =>
      movementEvents({ ...movement('opened', 0), atMs: Date.parse(iso) }, { publicUrl: undefined })[0]!
    expect(at('2031-03-09T08:59:59Z')).toMatchObject({ eventTimeZoneOffset: '-07:00' })
    expect(at('2031-03-09T09:00:00Z')).toMatchObject({
      eventTime: '2031-03-09T03:00:00.000-06:00',
      eventTimeZoneOffset: '-06:00',
    })
  })
})
