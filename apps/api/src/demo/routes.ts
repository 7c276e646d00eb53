import type { App } from '../foundation/http/app-type.ts'
import { demoSignIns } from './people.ts'

/** The demo's sign-ins, for the sign-in page; only while the demo chain is there and still has its own passwords. */
export async function demoRoutes(app: App): Promise<void> {
  app.get('/v1/demo', { config: { access: 'public' }, schema: { hide: true } }, async (_request, reply) => {
    const people = await demoSignIns(app.database)
    return people.length > 0 ? { people } : reply.callNotFound()
  })
}
