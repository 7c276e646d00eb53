/** After what the page itself fetches once it stands: keeping the shell delays nothing that somebody waits for. */
const AFTER_MS = 4_000

/**
 * Has the browser keep the shell, so that the page opens without network. Only a built dashboard has something to keep,
 * and browsers allow it on https and on the machine itself alone.
 */
export function keepShell(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return
  setTimeout(() => {
    // What cannot be kept is asked for each time, as without it.
    navigator.serviceWorker.register('/sw.js').catch(() => undefined)
  }, AFTER_MS)
}
