import { LIVE_ALIVE_MS } from '@clampclock/contracts'
import { get } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { KINDS } from '../support/databases.ts'
import { makeShop, receive, type Shop } from '../support/fixtures.ts'
import { PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

interface Stream {
  readonly next: (topic: string) => Promise<{ topic: string; shopId: string | null }>
  /** The next sign that the stream lives. */
  readonly alive: () => Promise<void>
  readonly seen: { topic: string; shopId: string | null }[]
  readonly close: () => void
}

describe.each(KINDS)('live updates, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  async function listen(token: string): Promise<Stream> {
    const { port } = test.app.server.address() as AddressInfo
    const seen: Stream['seen'] = []
    let lives = 0
    const waiting = new Set<() => void>()
    const request = await new Promise<ReturnType<typeof get>>((resolve) => {
      const sent = get(
        { port, path: '/v1/events', headers: { authorization: `Bearer ${token}` } },
        (response) => {
          let text = ''
          response.on('data', (chunk: Buffer) => {
            text += chunk.toString()
            const events = text.split('\n\n')
            text = events.pop() ?? ''
            for (const event of events) {
              if (event.startsWith('event: alive\n')) lives += 1
              const data = /^event: change\ndata: (.*)$/m.exec(event)?.[1]
              if (data) seen.push(JSON.parse(data) as Stream['seen'][number])
            }
            for (const check of waiting) check()
            resolve(sent)
          })
        },
      )
      sent.on('error', () => undefined)
    })
    const next = (topic: string) =>
      new Promise<Stream['seen'][number]>((resolve) => {
        const check = () => {
          const event = seen.find((each) => each.topic === topic)
          if (!event) return
          waiting.delete(check)
          resolve(event)
        }
        waiting.add(check)
        check()
      })
    const alive = () =>
      new Promise<void>((resolve) => {
        const before = lives
        const check = () => {
          if (lives === before) return
          waiting.delete(check)
          resolve()
        }
        waiting.add(check)
      })
    return { next, alive, seen, close: () => request.destroy() }
  }
  const tokenOf = async (email: string) =>
    (await test.anybody.made<{ token: string }>('/v1/sessions', { email, password: PASSWORD })).token

  it('name what changed, to who may see it and to nobody else', async () => {
    const other = await makeShop(test.owner)
    await test.owner.made('/v1/people', {
      name: 'Other',
      email: `other-${kind}@test.example`,
      password: PASSWORD,
      memberships: [{ shopId: other.shopId, role: 'viewer' }],
    })
    const mine = await listen(await tokenOf('owner@test.example'))
    const theirs = await listen(await tokenOf(`other-${kind}@test.example`))
    await receive(test.owner, shop)
    expect(await mine.next('stock')).toMatchObject({ shopId: shop.shopId })
    await receive(test.owner, other)
    expect(await theirs.next('stock')).toMatchObject({ shopId: other.shopId })
    expect(theirs.seen.some(({ shopId }) => shopId === shop.shopId)).toBe(false)
    mine.close()
    theirs.close()
  })

  it('do not keep the service from ending', async () => {
    const second = await startTestApp(kind)
    const { token } = await second.anybody.made<{ token: string }>('/v1/sessions', {
      email: 'owner@test.example',
      password: PASSWORD,
    })
    const { port } = second.app.server.address() as AddressInfo
    const ended = new Promise<void>((resolve) => {
      get({ port, path: '/v1/events', headers: { authorization: `Bearer ${token}` } }, (response) => {
        response.resume()
        response.on('end', () => resolve())
        void second.end()
      })
    })
    await expect(ended).resolves.toBeUndefined()
  })

  it('say again and again that they live, so that silence is known for what it is', async () => {
    const stream = await listen(await tokenOf('owner@test.example'))
    const since = Date.now()
    await stream.alive()
    await stream.alive()
    expect(Date.now() - since).toBeGreaterThan(LIVE_ALIVE_MS)
    stream.close()
  })
})
