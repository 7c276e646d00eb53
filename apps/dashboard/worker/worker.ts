/**
 * Keeps the shell of the dashboard on the device: its page, scripts and styles, and nothing that the service tells of a
 * person or a shop. The build puts in what there is.
 *
 * Built files carry their hash in the name, so that a kept one is never out of date. The page that names them is asked
 * for each time: a kept one is shown only where no answer comes.
 */
declare const self: ServiceWorkerGlobalScope
/** Paths of the built files, and a name for all of them together. */
declare const SHELL: { readonly build: string; readonly files: readonly string[] }

const PREFIX = 'clampclock-shell-'
const CACHE = PREFIX + SHELL.build
const PAGE = '/index.html'
/** A network that is there and goes nowhere never says so. */
const PAGE_WITHIN_MS = 6_000
/** What a proxy answers while nobody is behind it. */
const NOBODY_THERE = new Set([502, 503, 504])

// It takes over from the one before once no page of that is open. Taking over at once would gain nothing, since the page
// is asked for each time, and a navigation that met the change was seen to hang.
self.addEventListener('install', (event) => {
  event.waitUntil(keepShell())
})

self.addEventListener('activate', (event) => {
  event.waitUntil(
    dropOldShells()
      .then(() => self.registration.navigationPreload.enable())
      .then(() => self.clients.claim()),
  )
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== self.location.origin) return
  if (pathname.startsWith('/assets/')) event.respondWith(builtFile(request))
  else if (request.mode === 'navigate' && isScreen(pathname))
    event.respondWith(page(request, event.preloadResponse as Promise<Response | undefined>))
  // Whatever else there is, answers of the service above all, goes its way as if no worker were here.
})

/** An address of the dashboard's own, and none that the service answers itself. */
function isScreen(pathname: string): boolean {
  return !/^\/(v1|docs|health|openapi\.json)(\/|$)/.test(pathname)
}

/** All or nothing: a page without its scripts is worse than none. */
async function keepShell(): Promise<void> {
  const cache = await caches.open(CACHE)
  const response = await fetch(PAGE, { cache: 'reload' })
  const named = [...(await response.clone().text()).matchAll(/"(\/assets\/[^"]+)"/g)].map(([, path]) => path!)
  if (!response.ok || named.length === 0 || !named.every((path) => SHELL.files.includes(path)))
    throw new Error('The page is of another build: tried again with the next visit')
  await Promise.all(
    SHELL.files.map(async (path) => {
      if (await cache.match(path)) return
      // What did not change between two builds is here already.
      const there = await caches.match(path, { ignoreVary: true })
      if (there) await cache.put(path, there)
      else await cache.add(path)
    }),
  )
  // Last: a shell is whole once its page is there.
  await cache.put(PAGE, response)
}

/** A page that is still open may need parts of the shell before this one; older ones go. */
async function dropOldShells(): Promise<void> {
  const shells = (await caches.keys()).filter((name) => name.startsWith(PREFIX))
  const others = shells.filter((name) => name !== CACHE)
  await Promise.all(others.slice(0, -1).map((name) => caches.delete(name)))
}

async function builtFile(request: Request): Promise<Response> {
  const kept = await caches.match(request, { ignoreVary: true })
  if (kept) return kept
  const response = await fetch(request)
  // The decoder of barcodes is large and comes along only where somebody scans.
  if (response.ok && response.type === 'basic') {
    const cache = await caches.open(CACHE)
    await cache.put(request, response.clone())
  }
  return response
}

async function page(request: Request, preloaded: Promise<Response | undefined>): Promise<Response> {
  try {
    const response = await within(
      PAGE_WITHIN_MS,
      preloaded.then((already) => already ?? fetch(request)),
    )
    if (!NOBODY_THERE.has(response.status)) return response
    return (await keptPage()) ?? response
  } catch (error) {
    const kept = await keptPage()
    if (kept) return kept
    throw error
  }
}

/** Of the last build that is whole: a newer worker that waits has kept it already. */
async function keptPage(): Promise<Response | undefined> {
  const shells = (await caches.keys()).filter((name) => name.startsWith(PREFIX))
  for (const name of shells.reverse()) {
    const kept = await (await caches.open(name)).match(PAGE)
    if (kept) return kept
  }
  return undefined
}

function within<Value>(ms: number, value: Promise<Value>): Promise<Value> {
  return new Promise((resolve, reject) => {
    setTimeout(() => reject(new Error(`No answer within ${ms} ms`)), ms)
    value.then(resolve, reject)
  })
}

export {}
