import fastifyStatic from '@fastify/static'
import type { App } from './app-type.ts'

/** The built dashboard; its own addresses are all one page, which finds its way by itself. */
export async function dashboard(app: App, { folder }: { folder: string }): Promise<void> {
  await app.register(fastifyStatic, {
    root: folder,
    wildcard: false,
    // The build wrote them, smaller than there is time for while somebody waits.
    preCompressed: true,
    setHeaders: (response, path) => {
      // Built files carry their hash in the name; the page that names them must be asked for each time.
      const built = path.includes('/assets/')
      response.header('cache-control', built ? 'public, max-age=31536000, immutable' : 'no-cache')
    },
  })
  app.get('/*', { config: { access: 'public' }, schema: { hide: true } }, (request, reply) => {
    const wantsPage = request.headers.accept?.includes('text/html') ?? false
    return wantsPage && !request.url.startsWith('/v1/') ? reply.sendFile('index.html') : reply.callNotFound()
  })
}
