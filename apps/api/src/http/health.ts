import type { App } from './app-type.ts'

/** Ready means that the database answers: a process that cannot reach it should get no requests. */
export async function health(app: App): Promise<void> {
  app.get('/health', { config: { access: 'public', rateLimit: false }, schema: { hide: true } }, async () => {
    await app.database.prisma.$queryRaw`select 1`
    return { status: 'ready', database: app.database.kind }
  })
}
