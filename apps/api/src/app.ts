import compress from '@fastify/compress'
import cookie from '@fastify/cookie'
import helmet from '@fastify/helmet'
import rateLimit from '@fastify/rate-limit'
import underPressure from '@fastify/under-pressure'
import fastify, { type FastifyRequest } from 'fastify'
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod'
import { authenticate } from './foundation/access/authenticate.ts'
import { accessRoutes } from './foundation/access/routes.ts'
import { SetUpCode } from './foundation/access/set-up.ts'
import { supplyModule } from './supply/routes.ts'
import { cureModule } from './cure/routes.ts'
import { planningModule } from './planning/routes.ts'
import { attentionModule } from './attention/routes.ts'
import { calculationRoutes } from './cure/calculations/routes.ts'
import { catalogueRoutes } from './work/catalogue/routes.ts'
import type { Config } from './foundation/config/config.ts'
import type { Database } from './foundation/database/database.ts'
import { demoRoutes } from './demo/routes.ts'
import type { App } from './foundation/http/app-type.ts'
import { dashboard } from './foundation/http/dashboard.ts'
import { answerProblem, errorHandler } from './foundation/http/error-handler.ts'
import { health } from './foundation/http/health.ts'
import { KeptAnswers } from './foundation/http/kept-answers.ts'
import { logged } from './foundation/http/request-log.ts'
import { openApi } from './foundation/http/open-api.ts'
import { trustOf } from './foundation/http/trusted-proxies.ts'
import { LiveHub } from './foundation/live/hub.ts'
import { PlannerPool } from './planning/plans/pool.ts'
import { startReacting } from './reactions.ts'
import { shopRoutes } from './foundation/shops/routes.ts'

const BODY_LIMIT = 1024 * 1024
/** A dashboard that is open in a busy shop asks a few times a second at most. */
const REQUESTS_PER_MINUTE = 1200
/** Of one caller, over all calculations: each may carry weeks of readings. */
const CALCULATIONS_PER_MINUTE = 120
const MOST_DELAY_MS = 5000

export interface AppParts {
  readonly config: Config
  readonly database: Database
  readonly clock?: () => Date
  readonly setUpCode?: SetUpCode
  /** Folder of the built dashboard; without it only the API is served. */
  readonly dashboardFolder?: string
  readonly requestsPerMinute?: number
  /** As `requestsPerMinute` when only that is given. */
  readonly calculationsPerMinute?: number
  readonly answers?: KeptAnswers
  /** Refuse requests while the process falls so far behind, ms; 0 never does. */
  readonly mostDelayMs?: number
}

/** The application, knowing no port and no signal: `main.ts` serves it, tests inject into it. */
export async function buildApp(parts: AppParts): Promise<App> {
  const { config, database } = parts
  const app = fastify({
    logger: { level: config.logLevel, serializers: { req: logged } },
    bodyLimit: BODY_LIMIT,
    trustProxy: trustOf(config.trustProxy),
    requestTimeout: 60_000,
    routerOptions: { maxParamLength: 200 },
    // Ids of requests come from us: a caller's own would let one forge the log.
    requestIdHeader: false,
    // An address that cannot even be decoded never reaches a route: it gets a problem all the same.
    frameworkErrors: (error, request, reply) => void answerProblem(error, request, reply),
  })
  // JSON is all that the contracts take.
  app.removeContentTypeParser('text/plain')
  startReacting()
  const live = new LiveHub()
  await live.start(database)
  app.decorate('config', config)
  app.decorate('database', database)
  app.decorate('live', live)
  app.decorate('answers', parts.answers ?? new KeptAnswers())
  const planner = new PlannerPool()
  app.addHook('onClose', () => planner.close())
  app.decorate('planner', planner)
  app.decorate('clock', parts.clock ?? (() => new Date()))
  app.setValidatorCompiler(validatorCompiler)
  app.setSerializerCompiler(serializerCompiler)

  await app.register(helmet, {
    contentSecurityPolicy: CONTENT_SECURITY,
    strictTransportSecurity: config.secureCookies,
  })
  await app.register(compress, { threshold: 1024 })
  await app.register(cookie)
  await app.register(rateLimit, {
    max: parts.requestsPerMinute ?? REQUESTS_PER_MINUTE,
    timeWindow: '1 minute',
    // A dozen screens of one shop that load the dashboard at once are no attack.
    allowList: (request) => !isOfApi(request),
  })
  // The embedded database works in this process, so there a long delay is its work and no reason to refuse more.
  const mostDelayMs = database.kind === 'server' ? (parts.mostDelayMs ?? MOST_DELAY_MS) : 0
  await app.register(underPressure, { maxEventLoopDelay: mostDelayMs })
  await app.register(errorHandler)
  await app.register(openApi)
  await app.register(authenticate)
  app.addHook('onRequest', async (request, reply) => {
    // What is told depends on who asks and on the minute: nothing between may keep it.
    if (isOfApi(request)) reply.header('cache-control', 'no-store').header('vary', 'accept-language')
  })

  await app.register(health)
  await app.register(accessRoutes, { setUpCode: parts.setUpCode ?? new SetUpCode() })
  await app.register(shopRoutes)
  await app.register(catalogueRoutes)
  await app.register(supplyModule)
  await app.register(cureModule)
  await app.register(calculationRoutes, {
    perMinute: parts.calculationsPerMinute ?? parts.requestsPerMinute ?? CALCULATIONS_PER_MINUTE,
  })
  await app.register(planningModule)
  await app.register(attentionModule)
  await app.register(demoRoutes)
  if (parts.dashboardFolder) await app.register(dashboard, { folder: parts.dashboardFolder })
  return app
}

/**
 * By the route that was found and not by how its path was spelt: `/%761/sessions` is `/v1/sessions`. What no route was
 * found for counts as asked of the API.
 */
function isOfApi({ routeOptions }: Pick<FastifyRequest, 'routeOptions'>): boolean {
  return routeOptions.url?.startsWith('/v1/') ?? true
}

/**
 * Everything comes from here; the component library sets styles from scripts, so those are allowed inline. A decoder of
 * barcodes is WebAssembly, and its compilation needs the word below: it allows no script text to be evaluated.
 */
const CONTENT_SECURITY = {
  directives: {
    'default-src': ["'self'"],
    'style-src': ["'self'", "'unsafe-inline'"],
    'img-src': ["'self'", 'data:'],
    'script-src': ["'self'", "'wasm-unsafe-eval'"],
    'connect-src': ["'self'"],
    'frame-ancestors': ["'none'"],
    'upgrade-insecure-requests': null,
  },
}
