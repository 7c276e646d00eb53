import { createServer, type Server } from 'node:http'
import { createServer as createTcpServer } from 'node:net'
import type { AddressInfo } from 'node:net'
import { Webhook } from 'standardwebhooks'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { deliverDue, type Senders } from '../../apps/api/src/attention/notifications/deliver.ts'
import { poster } from '../../apps/api/src/attention/notifications/post.ts'
import { mailer } from '../../apps/api/src/attention/notifications/delivering.ts'
import { queueAllDigests } from '../support/digests.ts'
import { ONE_KIND } from '../support/databases.ts'
import { makeShop, receive, type Shop } from '../support/fixtures.ts'
import { NOON, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

interface Alert {
  readonly id: string
  readonly owner: { id: string; name: string } | null
  readonly snoozed: object | null
  readonly resolution: { by: string } | null
}
interface Got {
  readonly headers: Record<string, string>
  readonly body: string
}

describe.each(ONE_KIND)('handling alerts, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let receiver: Server
  let address: string
  let status = 200
  const got: Got[] = []
  const mails: { to: string; subject: string; text: string }[] = []
  const senders: Senders = {
    post: poster(true),
    sendMail: async (mail) => {
      mails.push(mail)
    },
  }
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    receiver = createServer((request, response) => {
      let body = ''
      request.on('data', (chunk: Buffer) => {
        body += chunk.toString()
      })
      request.on('end', () => {
        got.push({ headers: request.headers as Record<string, string>, body })
        response.writeHead(status).end()
      })
    })
    await new Promise<void>((resolve) => {
      receiver.listen(0, '127.0.0.1', () => resolve())
    })
    address = `http://127.0.0.1:${(receiver.address() as AddressInfo).port}/hook`
  })
  afterAll(async () => {
    receiver.close()
    await test.end()
  })
  const minutes = (count: number) => {
    test.clock.now = new Date(NOON.getTime() + count * 60_000)
  }
  const look = () => watchAll(test.database, test.clock.now)
  const open = async (query = '') =>
    (await test.owner.read<{ items: Alert[] }>(`/v1/alerts?kind=expiresSoon&shopId=${shop.shopId}${query}`))
      .items
  const send = () => deliverDue(test.database, senders, test.clock.now)

  it('gives one to a person, puts it out of sight for a while, and resolves it until its cause comes back', async () => {
    minutes(0)
    const [piece] = await receive(test.owner, shop, { date: '2031-05-20' })
    await look()
    const [alert] = await open()
    const { id: personId } = await test.owner.made('/v1/people', {
      name: 'Petra',
      email: `petra.${kind}@test.example`,
      password: PASSWORD,
      memberships: [{ shopId: shop.shopId, role: 'partsManager' }],
    })
    const act = (what: string, body: object) => test.owner.post(`/v1/alerts/${alert!.id}/${what}`, body)
    expect((await act('owner', { personId })).body.owner).toEqual({ id: personId, name: 'Petra' })
    const petra = await test.signIn(`petra.${kind}@test.example`)
    expect((await petra.read<{ items: object[] }>('/v1/alerts?mine=true')).items).toHaveLength(1)
    const stranger = await act('owner', { personId: shop.shopId })
    expect(stranger.body.reasons[0].field).toBe('body.personId')

    await act('snooze', { until: new Date(NOON.getTime() + 3_600_000).toISOString() })
    expect(await open()).toEqual([])
    expect(await open('&snoozed=true')).toHaveLength(1)
    minutes(61)
    expect(await open()).toHaveLength(1)
    expect((await act('snooze', { until: '2031-09-01T00:00:00Z' })).body.reasons[0].field).toBe('body.until')

    expect((await act('resolution', { reason: 'Goes on Friday’s roof' })).body.resolution.by).toBe('Owner')
    await look()
    // Its cause lasts: it is not told again.
    expect(await open()).toEqual([])
    await test.owner.made(`/v1/shops/${shop.shopId}/moves`, { cartridgeIds: [piece!.id], locationId: null })
    await test.owner.made(`/v1/cartridges/${piece!.id}/discard`, { reason: 'Fell off the shelf' })
    await look()
    minutes(70)
    const { lotId } = await test.owner.read<{ lotId: string }>(`/v1/cartridges/${piece!.id}`)
    const { lotNumber } = await test.owner.read<{ lotNumber: string }>(`/v1/lots/${lotId}`)
    await receive(test.owner, shop, { date: '2031-05-20', lotNumber })
    await look()
    const [again] = await open()
    expect(again!.id).not.toBe(alert!.id)
  })

  it('tells webhooks once, signed as Standard Webhooks says, and tries again until it has arrived', async () => {
    minutes(100)
    const hook = await test.owner.made<{ id: string; secret: string }>('/v1/webhooks', {
      name: `Hook ${kind}`,
      url: address,
      kinds: ['expiresSoon'],
    })
    const listed = await test.owner.get('/v1/webhooks')
    expect(JSON.stringify(listed.body)).not.toContain('whsec_')
    await receive(test.owner, shop, { date: '2031-05-21' })
    await look()
    await look()
    status = 500
    await send()
    expect(got).toHaveLength(1)
    // Not due yet: nothing is sent.
    await send()
    expect(got).toHaveLength(1)
    status = 204
    test.clock.now = new Date(test.clock.now.getTime() + 6_000)
    await send()
    expect(got).toHaveLength(2)
    expect(got[1]!.headers['webhook-id']).toBe(got[0]!.headers['webhook-id'])
    await send()
    expect(got).toHaveLength(2)

    const [first] = got
    const wrong = new Webhook('whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw')
    const key = new Webhook(hook.secret)
    // The library refuses old stamps by the real clock, so the signature itself is compared.
    const stamp = new Date(Number(first!.headers['webhook-timestamp']) * 1000)
    expect(key.sign(first!.headers['webhook-id']!, stamp, first!.body)).toBe(
      first!.headers['webhook-signature'],
    )
    expect(wrong.sign(first!.headers['webhook-id']!, stamp, first!.body)).not.toBe(
      first!.headers['webhook-signature'],
    )
    expect(JSON.parse(first!.body)).toMatchObject({ type: 'alert.opened', data: { kind: 'expiresSoon' } })
    const { items } = await test.owner.read<{ items: { attempts: number; deliveredAt: string | null }[] }>(
      `/v1/webhooks/${hook.id}/deliveries`,
    )
    expect(items).toMatchObject([{ attempts: 2, lastError: null }])
    expect(items[0]!.deliveredAt).not.toBeNull()

    await test.owner.made(`/v1/webhooks/${hook.id}/test`)
    await Promise.all([send(), send(), send()])
    expect(got.filter(({ body }) => body.includes('webhook.test'))).toHaveLength(1)
    expect((await test.owner.delete(`/v1/webhooks/${hook.id}`)).status).toBe(204)
    got.length = 0
  })

  it('goes on when a webhook is removed while it is being told', async () => {
    minutes(200)
    const made = await Promise.all(
      ['Leaves', 'Stays'].map((name) =>
        test.owner.made('/v1/webhooks', { name: `${name} ${kind}`, url: address }),
      ),
    )
    const [leaves, stays] = made.map(({ id }) => id)
    await test.owner.made(`/v1/webhooks/${leaves!}/test`)
    await test.owner.made(`/v1/webhooks/${stays!}/test`)
    const post: Senders['post'] = async () => {
      await test.owner.delete(`/v1/webhooks/${leaves!}`)
      return 204
    }
    expect(await deliverDue(test.database, { ...senders, post }, test.clock.now)).toBe(2)
    const { items } = await test.owner.read<{ items: { deliveredAt: string | null }[] }>(
      `/v1/webhooks/${stays!}/deliveries`,
    )
    expect(items[0]!.deliveredAt).not.toBeNull()
    await test.owner.delete(`/v1/webhooks/${stays!}`)
  })

  it('gives a webhook up that does not answer for a day', async () => {
    minutes(300)
    status = 503
    const hook = await test.owner.made('/v1/webhooks', { name: `Dead ${kind}`, url: address })
    await test.owner.made(`/v1/webhooks/${hook.id}/test`)
    for (let hour = 0; hour < 40; hour += 1) {
      test.clock.now = new Date(test.clock.now.getTime() + 3_600_000)
      await send()
    }
    const { items } = await test.owner.read<{
      items: { attempts: number; nextAttemptAt: string | null; lastError: string }[]
    }>(`/v1/webhooks/${hook.id}/deliveries`)
    expect(items).toMatchObject([{ attempts: 8, nextAttemptAt: null, lastError: 'It answered 503' }])
    await test.owner.delete(`/v1/webhooks/${hook.id}`)
  })

  it('mails open alerts once a day at the hour that one chose, and nobody who did not', async () => {
    // Noon in New York.
    minutes(0)
    expect((await test.owner.put('/v1/me/digest', { hour: 12 })).body).toEqual({ hour: 12, canSend: false })
    await Promise.all(
      [1, 2, 3].map(() => queueAllDigests(test.database, 'https://stock.example', test.clock.now)),
    )
    await send()
    expect(mails).toHaveLength(1)
    expect(mails[0]).toMatchObject({ to: 'owner@test.example' })
    expect(mails[0]!.text).toContain('https://stock.example/alerts')
    expect(mails[0]!.text).toContain('NOTICE: Test adhesive')
    minutes(60)
    await queueAllDigests(test.database, undefined, test.clock.now)
    await send()
    expect(mails).toHaveLength(1)
    await test.owner.put('/v1/me/digest', { hour: null })
    minutes(24 * 60)
    await queueAllDigests(test.database, undefined, test.clock.now)
    await send()
    expect(mails).toHaveLength(1)
  })
})

describe('the mailer', () => {
  it('is off without a mail server, and speaks SMTP with one', async () => {
    expect(mailer(undefined, 'a@test.example')).toBeUndefined()
    let heard = ''
    // Just enough of a mail server (RFC 5321) to take one message.
    const server = createTcpServer((socket) => {
      let isData = false
      socket.write('220 test\r\n')
      socket.on('data', (chunk: Buffer) => {
        const text = chunk.toString()
        heard += text
        if (isData) {
          if (!heard.includes('\r\n.\r\n')) return
          isData = false
          socket.write('250 taken\r\n')
          return
        }
        isData = text.startsWith('DATA')
        socket.write(isData ? '354 go on\r\n' : text.startsWith('QUIT') ? '221 bye\r\n' : '250 test\r\n')
      })
    })
    await new Promise<void>((resolve) => {
      server.listen(0, '127.0.0.1', () => resolve())
    })
    const { port } = server.address() as AddressInfo
    const send = mailer(`smtp://127.0.0.1:${port}`, 'Clampclock <stock@test.example>')!
    await send({
      to: 'petra@test.example',
      subject: '2 open alerts',
      text: 'Look here',
      messageId: 'digest_1',
    })
    server.close()
    expect(heard).toContain('RCPT TO:<petra@test.example>')
    expect(heard).toContain('Subject: 2 open alerts')
    expect(heard).toContain('Message-ID: <digest_1@clampclock>')
  })

  it('does not wait for ever for a mail server that says nothing', async () => {
    const server = createTcpServer(() => {})
    await new Promise<void>((resolve) => {
      server.listen(0, '127.0.0.1', () => resolve())
    })
    const { port } = server.address() as AddressInfo
    const send = mailer(`smtp://127.0.0.1:${port}`, 'Clampclock <stock@test.example>', 50)!
    await expect(
      send({ to: 'petra@test.example', subject: 'Open alerts', text: 'Look here', messageId: 'digest_2' }),
      // Which of its patiences ends first depends on how busy the machine is.
    ).rejects.toThrow(/Greeting never received|timeout/i)
    server.close()
  })
})
