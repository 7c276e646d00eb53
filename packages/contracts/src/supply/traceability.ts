import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id } from '../foundation/values.ts'

const lotParams = z.object({ lotId: Id })
const orderParams = z.object({ repairOrderId: Id })
const epcis = z.string().describe('An EPCIS 2.0 document (GS1, open standard) in JSON-LD')
const csv = z.string().describe('The table, with a heading, in UTF-8')

/** Traceability out of the house, in the open standard and as a table. */
export const traceabilityRoutes = {
  getLotEvents: defineRoute({
    method: 'GET',
    path: '/v1/lots/:lotId/epcis',
    operationId: 'getLotEvents',
    tag: 'traceability',
    summary: 'A lot’s whole life, as EPCIS events',
    description:
      'Received, shelved, opened, used (with the joint that it went into), thrown away, sent, counted, held. Cartridges are ' +
      'identified by our own label (PUBLIC_URL) or by UUID, lots by GS1 Digital Link where a GTIN is known.',
    access: 'readShop',
    params: lotParams,
    status: 200,
    mediaType: 'application/ld+json',
    response: epcis,
  }),
  getLotLifeCsv: defineRoute({
    method: 'GET',
    path: '/v1/lots/:lotId/life.csv',
    operationId: 'getLotLifeCsv',
    tag: 'traceability',
    summary: 'A lot’s whole life, as CSV',
    access: 'readShop',
    params: lotParams,
    status: 200,
    mediaType: 'text/csv',
    response: csv,
  }),
  getVehicleEvents: defineRoute({
    method: 'GET',
    path: '/v1/repairOrders/:repairOrderId/epcis',
    operationId: 'getVehicleEvents',
    tag: 'traceability',
    summary: 'The adhesives in a vehicle, as EPCIS events',
    access: 'readShop',
    params: orderParams,
    status: 200,
    mediaType: 'application/ld+json',
    response: epcis,
  }),
  getVehicleAdhesivesCsv: defineRoute({
    method: 'GET',
    path: '/v1/repairOrders/:repairOrderId/adhesives.csv',
    operationId: 'getVehicleAdhesivesCsv',
    tag: 'traceability',
    summary: 'The adhesives in a vehicle, as CSV',
    access: 'readShop',
    params: orderParams,
    status: 200,
    mediaType: 'text/csv',
    response: csv,
  }),
}
