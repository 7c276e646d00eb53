import { DateTime } from 'luxon'
import type { TracedHold, TracedMovement } from './facts.ts'
import { cartridgeUri, lotUri, uuidUri, type Addresses } from './identify.ts'

/** An event of GS1 EPCIS 2.0 in JSON-LD. */
export type EpcisEvent = Readonly<Record<string, unknown>> & {
  readonly type: 'ObjectEvent' | 'AssociationEvent'
  readonly eventTime: string
}

type Step = readonly [action: 'ADD' | 'OBSERVE' | 'DELETE', bizStep: string, disposition: string]

/** How each movement is said in the Core Business Vocabulary (CBV 2.0). */
const STEPS: Record<Exclude<TracedMovement['kind'], 'corrected'>, Step> = {
  // Our label makes it an object that can be traced: so its life starts when it is received.
  received: ['ADD', 'commissioning', 'active'],
  opened: ['OBSERVE', 'unpacking', 'container_open'],
  used: ['OBSERVE', 'dispensing', 'partially_dispensed'],
  emptied: ['DELETE', 'decommissioning', 'inactive'],
  discarded: ['DELETE', 'destroying', 'disposed'],
  sent: ['OBSERVE', 'shipping', 'in_transit'],
  arrived: ['OBSERVE', 'receiving', 'available'],
  moved: ['OBSERVE', 'storing', 'available'],
  lost: ['OBSERVE', 'inspecting', 'unknown'],
}

/** A scrapped lot's cartridges are then discarded one by one. */
const HOLD_STEPS: Record<TracedHold['kind'], Step> = {
  held: ['OBSERVE', 'holding', 'unavailable'],
  ended: ['OBSERVE', 'inspecting', 'available'],
  scrapped: ['OBSERVE', 'inspecting', 'non_conformant'],
}

/** A count that did not find it leaves its fate unknown; one that did makes it available again. */
function stepOf({ kind, pieces }: TracedMovement): Step {
  if (kind !== 'corrected') return STEPS[kind]
  return ['OBSERVE', 'stock_taking', pieces < 0 ? 'unknown' : 'available']
}

/**
 * The events of a movement: what happened to the cartridge, and for adhesive that went into a joint, that the joint now
 * holds so much of the lot.
 */
export function movementEvents(movement: TracedMovement, addresses: Addresses): EpcisEvent[] {
  const [action, bizStep, disposition] = stepOf(movement)
  const { lot, shipment, joint, kind } = movement
  const shop = uuidUri(movement.shopId)
  const when = whenOf(movement)
  const object: EpcisEvent = {
    type: 'ObjectEvent',
    eventID: eventId(movement.id, 'object'),
    ...when,
    action,
    bizStep,
    disposition,
    epcList: [cartridgeUri(movement.cartridge, addresses)],
    readPoint: { id: shop },
    // What has left is nowhere until it is seen again.
    ...(kind === 'sent' || kind === 'lost' ? {} : { bizLocation: { id: placeOf(movement) } }),
    ...transactionsOf(movement),
    ...(shipment
      ? {
          sourceList: [{ type: 'location', source: uuidUri(shipment.fromShopId) }],
          destinationList: [{ type: 'location', destination: uuidUri(shipment.toShopId) }],
        }
      : {}),
    ...(action === 'ADD'
      ? { ilmd: { 'cbvmda:lotNumber': lot.lotNumber, 'cbvmda:itemExpirationDate': lot.printedExpiry } }
      : {}),
    ...whyOf(movement),
  }
  if (kind !== 'used' || !joint) return [object]
  const association: EpcisEvent = {
    type: 'AssociationEvent',
    eventID: eventId(movement.id, 'association'),
    ...when,
    action: 'ADD',
    bizStep: 'installing',
    disposition: 'active',
    parentID: uuidUri(joint.id),
    childQuantityList: [{ epcClass: lotUri(lot), quantity: -movement.volumeChangeMl, uom: 'MLT' }],
    readPoint: { id: shop },
    ...transactionsOf(movement),
    ...whyOf(movement),
  }
  return [object, association]
}

/** A hold is of the lot as a class: every cartridge of it, wherever it is. */
export function holdEvent(hold: TracedHold): EpcisEvent {
  const [action, bizStep, disposition] = HOLD_STEPS[hold.kind]
  return {
    type: 'ObjectEvent',
    eventID: eventId(hold.id, 'hold'),
    ...whenOf(hold),
    action,
    bizStep,
    disposition,
    quantityList: [{ epcClass: lotUri(hold.lot) }],
    ...whyOf(hold),
  }
}

function whenOf({ atMs, timeZone }: { readonly atMs: number; readonly timeZone: string }) {
  const at = DateTime.fromMillis(atMs, { zone: timeZone })
  return { eventTime: at.toISO()!, eventTimeZoneOffset: at.toFormat('ZZ') }
}

function placeOf({ locationId, shopId }: TracedMovement): string {
  return uuidUri(locationId ?? shopId)
}

function transactionsOf({ joint, shipment }: TracedMovement) {
  const list = [
    ...(joint ? [{ type: 'prodorder', bizTransaction: uuidUri(joint.repairOrderId) }] : []),
    ...(shipment ? [{ type: 'desadv', bizTransaction: uuidUri(shipment.id) }] : []),
  ]
  return list.length === 0 ? {} : { bizTransactionList: list }
}

/** Who and why are no part of the standard: our own words, under our own prefix. */
function whyOf({ recordedBy, reason }: { readonly recordedBy: string; readonly reason: string }) {
  return { 'clampclock:recordedBy': recordedBy, 'clampclock:reason': reason }
}

/** The same for the same thing, so that who takes the document in twice sees that it is the same. */
function eventId(id: string, part: string): string {
  return `urn:clampclock:event:${id}:${part}`
}
