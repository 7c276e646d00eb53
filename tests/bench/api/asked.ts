/** Asking a service, and how long it took. */
export interface Asked {
  /** Of each answer, ms, the quickest first. */
  readonly tookMs: readonly number[]
  readonly perSecond: number
}

let callers = 0

/**
 * As a caller of its own, so that the limit of requests of one caller does not count; and without compression, since the
 * bare server has none.
 */
export function headersOf(token: string): Record<string, string> {
  callers += 1
  return {
    authorization: `Bearer ${token}`,
    'accept-encoding': 'identity',
    'x-forwarded-for': `10.${(callers >> 16) & 255}.${(callers >> 8) & 255}.${callers & 255}`,
  }
}

export async function read<Body>(url: string, token: string): Promise<Body> {
  return (await (await asked(url, token)).json()) as Body
}

async function asked(url: string, token: string): Promise<Response> {
  const response = await fetch(url, { headers: headersOf(token) })
  if (!response.ok) throw new Error(`${url}: ${response.status} ${await response.text()}`)
  return response
}

/** So many clients, each of which asks again as soon as it was answered. */
export async function askFor(seconds: number, clients: number, url: string, token: string): Promise<Asked> {
  const from = performance.now()
  const tookMs: number[] = []
  const client = async () => {
    for (let now = from; now < from + seconds * 1000;) {
      await (await asked(url, token)).arrayBuffer()
      const then = now
      now = performance.now()
      tookMs.push(now - then)
    }
  }
  await Promise.all(Array.from({ length: clients }, client))
  return {
    tookMs: tookMs.toSorted((a, b) => a - b),
    perSecond: (tookMs.length * 1000) / (performance.now() - from),
  }
}

export function percentile(ascending: readonly number[], share: number): number {
  return ascending[Math.min(ascending.length - 1, Math.floor(ascending.length * share))] ?? Number.NaN
}

export async function signIn(base: string): Promise<string> {
  const body = JSON.stringify({ email: 'owner@bramblewick.example', password: 'clamp-the-whole-flange' })
  const headers = { 'content-type': 'application/json' }
  const response = await fetch(`${base}/v1/sessions`, { method: 'POST', headers, body })
  return ((await response.json()) as { token: string }).token
}
