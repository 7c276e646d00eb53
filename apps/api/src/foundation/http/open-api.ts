import swagger from '@fastify/swagger'
import swaggerUi from '@fastify/swagger-ui'
import fp from 'fastify-plugin'
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod'
import { version } from '../../../package.json' with { type: 'json' }
import type { App } from './app-type.ts'
import { oneSchemaEach } from './one-schema-each.ts'

const TAGS = [
  { name: 'overview', description: 'Every shop at a glance' },
  { name: 'bonds', description: 'The joint: may I use this, how long have I got, may I move it now' },
  { name: 'repairs', description: 'Repair orders and their joints' },
  { name: 'planning', description: 'Working time, repair templates, operations and plans' },
  { name: 'schedule', description: 'Bookings of bays, ovens, clamp sets and people' },
  { name: 'stock', description: 'Lots, cartridges and the ledger' },
  { name: 'replenishment', description: 'Orders, waste to come, and transfers between shops' },
  { name: 'traceability', description: 'A lot’s life and a vehicle’s adhesives: EPCIS 2.0 and CSV' },
  { name: 'products', description: 'Products and their data sheets' },
  { name: 'temperature', description: 'Thermometers, readings and forecasts' },
  { name: 'alerts', description: 'What needs attention' },
  { name: 'shops', description: 'Shops and what is in them' },
  {
    name: 'calculations',
    description: 'The computation by itself, for other programs: nothing is read or kept',
  },
  { name: 'access', description: 'People, roles, tokens and sign-in' },
]

/** The API document at /openapi.json, from the same contracts that validate, and a page to read it at /docs. */
export const openApi = fp(
  async (app: App) => {
    await app.register(swagger, {
      openapi: {
        openapi: '3.1.0',
        info: {
          title: 'Clampclock',
          version,
          description:
            "Times computed here are estimates. The adhesive maker's data sheet and safety data sheet, the vehicle maker's procedure and local codes come first. " +
            'Handling strength is not driving strength.',
          license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
        },
        servers: [{ url: '/' }],
        tags: TAGS,
        components: {
          securitySchemes: {
            bearer: { type: 'http', scheme: 'bearer', description: 'A session or access token' },
            cookie: { type: 'apiKey', in: 'cookie', name: 'clampclock_session' },
          },
        },
      },
      transform: jsonSchemaTransform,
      transformObject: (document) => oneSchemaEach(jsonSchemaTransformObject(document)),
    })
    await app.register(swaggerUi, { routePrefix: '/docs', staticCSP: true })
    app.get('/openapi.json', { config: { access: 'public' }, schema: { hide: true } }, async () =>
      app.swagger(),
    )
  },
  { name: 'open-api' },
)
