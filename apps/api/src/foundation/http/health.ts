import { backlogs } from '../jobs/backlog.ts'
import type { App } from './app-type.ts'

/** Ready means that the database answers: a process that cannot reach it should get no requests. */
export async function health(app: App): Promise<void> {
  app.get('/health', { config: { access: 'public', rateLimit: false }, schema: { hide: true } }, async () => {
    // A chain whose watch fails is told, but is no reason to send requests elsewhere.
    const failing = await app.database.prisma.watchState.count({ where: { failedAt: { not: null } } })
    return {
      status: 'ready',
      database: app.database.kind,
      watching: failing > 0 ? 'failing' : 'ok',
      queues: await backlogs(app.database, app.clock()),
    }
  })
}
