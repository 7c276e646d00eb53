import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { poster } from './post.ts'

describe('posting to an address that somebody entered', () => {
  let server: Server
  let port: number
  const asked: string[] = []
  beforeAll(async () => {
    server = createServer((request, response) => {
      asked.push(request.url ?? '')
      response.writeHead(request.url === '/moved' ? 302 : 204, { location: '/elsewhere' }).end()
    })
    await new Promise<void>((resolve) => {
      server.listen(0, '127.0.0.1', () => resolve())
    })
    port = (server.address() as AddressInfo).port
  })
  afterAll(() => server.close())

  it.each(['http://127.0.0.1', 'http://localhost', 'http://[::ffff:127.0.0.1]', 'http://2130706433'])(
    'does not reach the own machine by %s',
    async (origin) => {
      await expect(poster(false)(`${origin}:${port}/hook`, {}, '{}', 5000)).rejects.toThrow(
        'WEBHOOK_PRIVATE_ADDRESSES=true',
      )
      expect(asked).toEqual([])
    },
  )

  it('reaches it where that was allowed, and follows no redirect', async () => {
    const post = poster(true)
    expect(await post(`http://127.0.0.1:${port}/hook`, { 'webhook-id': '1' }, '{}', 5000)).toBe(204)
    expect(await post(`http://127.0.0.1:${port}/moved`, {}, '{}', 5000)).toBe(302)
    expect(asked).toEqual(['/hook', '/moved'])
  })
})
