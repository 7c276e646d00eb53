import { get, type IncomingMessage } from 'node:http'
import { askFor, headersOf, percentile, read } from './asked.ts'
import type { Copied } from './more-chains.ts'

export interface ScreensMeasured {
  readonly screens: number
  readonly readings: number
  /** From the answer to whoever sent the reading until a screen heard of it, ms. */
  readonly heardP50: number
  readonly heardP95: number
  /** Of those that should have, before the next reading of their shop or the end. */
  readonly heardShare: number
  /** What was asked beside: a bay board a screen that heard, and an overview after the other. */
  readonly boardP99: number
  readonly overviewP99: number
}

interface Place {
  readonly token: string
  readonly shopId: string
  readonly sensorId: string
}

/** Screens that are open all over the chains, each on its shop's bay board, while thermometers send their readings. */
export async function openScreens(
  base: string,
  chains: readonly Copied[],
  { screens, seconds, readingsPerSecond }: { screens: number; seconds: number; readingsPerSecond: number },
): Promise<ScreensMeasured> {
  const places = await placesOf(base, chains)
  /** When the last reading of a shop was answered, and which screens have not heard of it yet. */
  const told = new Map<string, { atMs: number; waiting: Set<number> }>()
  const heardMs: number[] = []
  const boardMs: number[] = []
  let due = 0
  const onShop = (shopId: string) =>
    Array.from({ length: screens }, (_, i) => i).filter((i) => places[i % places.length]!.shopId === shopId)

  const hear = (screen: number, { shopId, token }: Place) => {
    const last = told.get(shopId)
    if (!last?.waiting.delete(screen)) return
    heardMs.push(Math.max(0, performance.now() - last.atMs))
    const from = performance.now()
    void read(`${base}/v1/shops/${shopId}/bayBoard`, token).then(() => boardMs.push(performance.now() - from))
  }
  const streams = await Promise.all(
    Array.from({ length: screens }, (_, i) => {
      const place = places[i % places.length]!
      return listen(base, place.token, (event) => {
        if (event.shopId === place.shopId && event.topic === 'temperature') hear(i, place)
      })
    }),
  )

  const end = performance.now() + seconds * 1000
  const send = async () => {
    for (let n = 0; performance.now() < end; n++) {
      const { token, shopId, sensorId } = places[(n * 7) % places.length]!
      const waiting = new Set(onShop(shopId))
      due += waiting.size
      // Heard of before the answer is there: at once.
      told.set(shopId, { atMs: Infinity, waiting })
      const body = JSON.stringify({
        readings: [{ at: new Date().toISOString(), temperatureC: 20 + (n % 5) / 10 }],
      })
      const response = await fetch(`${base}/v1/sensors/${sensorId}/readings`, {
        method: 'POST',
        headers: { ...headersOf(token), 'content-type': 'application/json' },
        body,
      })
      if (!response.ok) throw new Error(`reading: ${response.status} ${await response.text()}`)
      told.set(shopId, { atMs: performance.now(), waiting })
      await new Promise((resolve) => setTimeout(resolve, 1000 / readingsPerSecond))
    }
  }
  const [, overview] = await Promise.all([
    send(),
    askFor(seconds, 1, `${base}/v1/overview`, chains[0]!.token),
  ])
  await new Promise((resolve) => setTimeout(resolve, 1000))
  for (const stream of streams) stream.destroy()
  const [heard, boards] = [heardMs, boardMs].map((all) => all.toSorted((a, b) => a - b)) as [
    number[],
    number[],
  ]
  return {
    screens,
    readings: due === 0 ? 0 : Math.round((due / screens) * places.length),
    heardP50: Math.round(percentile(heard, 0.5)),
    heardP95: Math.round(percentile(heard, 0.95)),
    heardShare: Math.round((100 * heard.length) / due) / 100,
    boardP99: Math.round(percentile(boards, 0.99)),
    overviewP99: Math.round(percentile(overview.tookMs, 0.99)),
  }
}

/** One thermometer of a bay of each shop. */
async function placesOf(base: string, chains: readonly Copied[]): Promise<Place[]> {
  interface Listed {
    readonly items: readonly {
      readonly id: string
      readonly place: string
      readonly retiredAt: string | null
    }[]
  }
  const places: Place[] = []
  for (const { token } of chains) {
    const shops = await read<Listed>(`${base}/v1/shops`, token)
    for (const { id: shopId } of shops.items) {
      const sensors = await read<Listed>(`${base}/v1/shops/${shopId}/sensors`, token)
      const sensor = sensors.items.find(({ place, retiredAt }) => place === 'bay' && retiredAt === null)
      if (sensor) places.push({ token, shopId, sensorId: sensor.id })
    }
  }
  return places
}

interface Event {
  readonly topic: string
  readonly shopId: string | null
}

function listen(base: string, token: string, onEvent: (event: Event) => void): Promise<IncomingMessage> {
  return new Promise((resolve, reject) => {
    get(`${base}/v1/events`, { headers: headersOf(token), agent: false }, (response) => {
      if (response.statusCode !== 200) reject(new Error(`events: ${response.statusCode}`))
      let text = ''
      response.setEncoding('utf8')
      response.on('data', (chunk: string) => {
        text += chunk
        const parts = text.split('\n\n')
        text = parts.pop() ?? ''
        for (const part of parts) {
          const data = /^data: (\{"topic".*)$/m.exec(part)?.[1]
          if (data !== undefined) onEvent(JSON.parse(data) as Event)
        }
      })
      response.on('error', () => undefined)
      resolve(response)
    }).on('error', reject)
  })
}
