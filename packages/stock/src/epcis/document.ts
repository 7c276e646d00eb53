import type { EpcisEvent } from './event.ts'

/** Our own words in a document: what the standard has no field for. */
const OWN_CONTEXT = { clampclock: 'urn:clampclock:epcis:' }
const CONTEXT = 'https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld'

/** An EPCIS 2.0 document in JSON-LD, its events in the order in which they happened. */
export function epcisDocument(events: readonly EpcisEvent[], createdAtMs: number): object {
  return {
    '@context': [CONTEXT, OWN_CONTEXT],
    type: 'EPCISDocument',
    schemaVersion: '2.0',
    creationDate: new Date(createdAtMs).toISOString(),
    epcisBody: {
      eventList: events.toSorted((a, b) => Date.parse(a.eventTime) - Date.parse(b.eventTime)),
    },
  }
}
