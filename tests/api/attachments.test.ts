import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { KINDS } from '../support/databases.ts'
import { application, freshBay, makeJoint, makeShop, PHOTO, receive, type Shop } from '../support/fixtures.ts'
import { jpeg, png, pngOf, SECRETS, webp } from '../support/pictures.ts'
import { NOON, PASSWORD, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Attachment {
  readonly id: string
  readonly jointId: string | null
  readonly bondId: string | null
  readonly kind: 'photo' | 'note'
  readonly text: string
  readonly photo: { mediaType: string; width: number; height: number; bytes: number; sha256: string } | null
  readonly at: string
  readonly by: string
  readonly withdrawal: { at: string; by: string; reason: string } | null
}

const NOBODY = '00000000-0000-4000-8000-000000000000'
const base64 = (bytes: Buffer) => bytes.toString('base64')

describe.each(KINDS)('photos and notes, on the %s database', (kind) => {
  let test: TestApp
  let owner: Client
  let shop: Shop
  let orderId: string
  let jointId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    owner = test.owner
    shop = await makeShop(owner)
    ;({ orderId, jointId } = await makeJoint(owner, shop))
  })
  afterAll(() => test.end())

  const photos = (order = orderId) => `/v1/repairOrders/${order}/photos`
  const notes = (order = orderId) => `/v1/repairOrders/${order}/notes`
  const list = async (order = orderId) =>
    (await owner.read<{ items: Attachment[] }>(`/v1/repairOrders/${order}/attachments`)).items
  const content = async (id: string) => {
    const got = await owner.get(`/v1/attachments/${id}/content`).buffer(true).responseType('blob')
    expect(got.status).toBe(200)
    return { headers: got.headers as Record<string, string>, bytes: got.body as Buffer }
  }
  const addOrder = async () => (await makeJoint(owner, shop)).orderId
  const member = async (role: string, shopId: string) => {
    const email = `${role}-${Math.random().toString(36).slice(2)}@test.example`.toLowerCase()
    await owner.made('/v1/people', { name: role, email, password: PASSWORD, memberships: [{ shopId, role }] })
    return test.signIn(email)
  }

  it.each([
    ['a JPEG on its side', jpeg(), 'image/jpeg', 480, 640],
    ['an upright JPEG', jpeg({ orientation: 1 }), 'image/jpeg', 640, 480],
    ['a PNG', png(), 'image/png', 320, 240],
    ['a WebP', webp(), 'image/webp', 640, 480],
  ])('keeps %s, and nothing in it of where, when and with what it was taken', async (_, sent, type, w, h) => {
    const there = (bytes: Buffer) => SECRETS.filter((secret) => bytes.includes(secret, 0, 'latin1'))
    expect(there(sent).length).toBeGreaterThan(2)
    const added = await owner.made<Attachment>(photos(), {
      jointId,
      caption: 'Flange before the bead',
      takenAt: '2031-05-07T15:00:00Z',
      base64: base64(sent),
    })
    expect(added).toMatchObject({
      kind: 'photo',
      jointId,
      bondId: null,
      text: 'Flange before the bead',
      by: 'Owner',
      photo: { mediaType: type, width: w, height: h, takenAt: '2031-05-07T15:00:00.000Z' },
      withdrawal: null,
    })
    const { headers, bytes } = await content(added.id)
    expect(there(bytes)).toEqual([])
    expect(bytes.length).toBe(added.photo!.bytes)
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(added.photo!.sha256)
    expect(headers).toMatchObject({
      'content-type': type,
      etag: `"${added.photo!.sha256}"`,
      'cache-control': 'private, max-age=31536000, immutable',
      'content-security-policy': "default-src 'none'; sandbox",
      'x-content-type-options': 'nosniff',
    })
    expect(headers['content-disposition']).toMatch(/^inline; filename="photo-[0-9a-f-]{36}\.(jpg|png|webp)"$/)
    const again = await owner
      .get(`/v1/attachments/${added.id}/content`)
      .set('if-none-match', `"${added.photo!.sha256}"`)
    expect(again.status).toBe(304)
    // What is kept is a picture of the same kind, with nothing left to take out.
    const twice = await owner.made<Attachment>(photos(), { base64: base64(bytes) })
    expect(twice.photo).toMatchObject({ sha256: added.photo!.sha256, width: w, height: h })
  })

  it('keeps which way up a JPEG is, its colour profile and its data', async () => {
    const { id } = await owner.made<Attachment>(photos(), { base64: base64(jpeg({ orientation: 6 })) })
    const { bytes } = await content(id)
    expect(bytes.includes('ICC_PROFILE', 0, 'latin1')).toBe(true)
    const exif = bytes.indexOf('Exif\0\0', 0, 'latin1')
    expect(bytes.subarray(exif + 6, exif + 32).toString('hex')).toBe(
      '4d4d002a00000008000101120003000000010006000000000000',
    )
    const bare = jpeg({ withMetadata: false })
    const scan = bare.subarray(bare.indexOf(Buffer.from([0xff, 0xda])))
    expect(bytes.subarray(-scan.length).equals(scan)).toBe(true)
  })

  it('keeps a PNG in passes: as many lines as they have', async () => {
    // Of 40 x 30 pixels and up, 76,800 in all, with a filter before each line.
    const filters = 30 + 30 + 30 + 60 + 60 + 120 + 120
    const sent = pngOf({ interlace: 1, lines: Buffer.alloc(76_800 + filters) })
    const answer = await owner.post(photos(), { base64: base64(sent) })
    expect(answer.status, JSON.stringify(answer.body)).toBe(201)
  })

  const cut = jpeg()
  it.each([
    ['a GIF', Buffer.from(`GIF89a${'x'.repeat(300)}`), 'is no whole JPEG, PNG or WebP picture'],
    ['an SVG with a script', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), 'is no whole JPEG'],
    ['a web page', Buffer.from('<!doctype html><script>0</script>'), 'is no whole JPEG'],
    ['a JPEG that was cut short', cut.subarray(0, cut.length - 400), 'is no whole JPEG'],
    ['a PNG with a changed byte', changed(Buffer.from(PHOTO.base64, 'base64')), 'is no whole JPEG'],
    ['a PNG with no pixels in it', pngOf({ packed: Buffer.from('not packed at all') }), 'is no whole JPEG'],
    ['a PNG with a line too few', pngOf({ lines: Buffer.alloc(239 * 321) }), 'is no whole JPEG'],
    ['a PNG with a line too many', pngOf({ lines: Buffer.alloc(241 * 321) }), 'is no whole JPEG'],
    ['a PNG of no colour type', pngOf({ colour: 7 }), 'is no whole JPEG'],
    ['a PNG of three bits', pngOf({ bits: 3 }), 'is no whole JPEG'],
    ['a WebP that moves', webp(0x02), 'is no whole JPEG'],
    ['a JPEG that says it is huge', jpeg({ width: 20_000, height: 20_000 }), 'a photo may have 40 million'],
    ['one on which nothing is to be seen', jpeg({ width: 100, height: 480 }), 'has only 480 × 100 pixels'],
    ['one of over 400 kB', jpeg({ data: 400_000 }), 'a photo may have 400 kB'],
  ])('refuses %s', async (_, sent, says) => {
    const before = (await list()).length
    const answer = await owner.post(photos(), { base64: base64(sent) })
    expect(answer.status).toBe(422)
    expect(answer.body.reasons[0].field).toBe('body.base64')
    expect(answer.body.reasons[0].message).toContain(says)
    expect(answer.body.reasons[0].fix).toBeTruthy()
    expect(await list()).toHaveLength(before)
  })

  function changed(bytes: Buffer): Buffer {
    bytes[bytes.length - 20]! ^= 1
    return bytes
  }

  it('tells who sends a whole phone picture how large one may be, up to 8 MiB', async () => {
    const answer = await owner.post(photos(), { base64: base64(jpeg({ data: 3_000_000 })) })
    expect(answer.status).toBe(422)
    expect(answer.body.reasons[0]).toMatchObject({
      message: expect.stringMatching(/^has 300\d kB; a photo may have 400 kB$/),
      fix: expect.stringContaining('Scale it down'),
    })
    // Without what stands beside the picture it may be as large as that, and not a byte more.
    const around = jpeg({ data: 200 }).length - 200
    expect((await owner.post(photos(), { base64: base64(jpeg({ data: 400_000 - around })) })).status).toBe(
      201,
    )
    expect((await owner.post(photos(), { base64: base64(jpeg({ data: 400_001 - around })) })).status).toBe(
      422,
    )
  })

  it('keeps notes of a vehicle, a joint and a bond, and says what is wrong with another', async () => {
    const order = await makeJoint(owner, shop)
    const other = await makeJoint(owner, shop)
    shop = await freshBay(owner, shop, NOON)
    const [piece] = await receive(owner, shop)
    const bond = await owner.made(`/v1/joints/${order.jointId}/bonds`, application(shop, piece!.id))
    const path = notes(order.orderId)
    await owner.made(path, { text: 'Dent behind the handle' })
    test.clock.now = new Date(NOON.getTime() + 60_000)
    await owner.made(path, { text: 'Flange was bent back', jointId: order.jointId })
    test.clock.now = new Date(NOON.getTime() + 120_000)
    await owner.made(path, { text: 'Squeeze-out all along', bondId: bond.id })
    expect(await list(order.orderId)).toMatchObject([
      { kind: 'note', jointId: null, bondId: null, text: 'Dent behind the handle', photo: null },
      { jointId: order.jointId, bondId: null },
      { jointId: order.jointId, bondId: bond.id },
    ])
    test.clock.now = NOON
    const field = async (body: object) => (await owner.post(path, body)).body.reasons[0].field
    expect(await field({ text: '  ' })).toBe('body.text')
    expect(await field({ text: 'Another', jointId: other.jointId })).toBe('body.jointId')
    expect(await field({ text: 'Another', bondId: NOBODY })).toBe('body.bondId')
    expect((await owner.post(notes(NOBODY), { text: 'Nowhere' })).status).toBe(404)
    const future = { base64: base64(jpeg()), takenAt: '2031-05-07T16:00:01Z' }
    expect((await owner.post(photos(order.orderId), future)).body.reasons[0]).toMatchObject({
      field: 'body.takenAt',
      message: 'is in the future: is the clock of the device right?',
    })
  })

  it('is withdrawn with a reason, once, and stays', async () => {
    const order = await addOrder()
    const photo = await owner.made<Attachment>(photos(order), { base64: base64(jpeg()) })
    const path = `/v1/attachments/${photo.id}/withdrawal`
    expect((await owner.post(path, { reason: 'no' })).status).toBe(422)
    const answers = await Promise.all(
      ['Another car is on it', 'Not the right side'].map((reason) => owner.post(path, { reason })),
    )
    expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([201, 409]))
    const [kept] = await list(order)
    expect(kept!.withdrawal).toMatchObject({ by: 'Owner', at: NOON.toISOString() })
    expect((await content(photo.id)).bytes.length).toBe(photo.photo!.bytes)
    expect((await owner.post(path, { reason: 'Once more then' })).body.detail).toContain('has withdrawn it')
  })

  it('is done once under one key, twice at the same moment too', async () => {
    const order = await addOrder()
    const send = () =>
      owner
        .post(photos(order), { base64: base64(jpeg()), caption: 'Once' })
        .set('idempotency-key', `"photo of ${order}"`)
    const answers = await Promise.all([send(), send(), send()])
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201])
    expect(new Set(answers.map(({ body }) => (body as Attachment).id)).size).toBe(1)
    expect((await send()).body).toEqual(answers[0]!.body)
    expect(await list(order)).toHaveLength(1)
  })

  it('takes forty photos of one thing, however many come at once, and others of another', async () => {
    const { orderId: order, jointId: joint } = await makeJoint(owner, shop)
    const small = base64(jpeg({ data: 200 }))
    const answers = await Promise.all(
      Array.from({ length: 43 }, () => owner.post(photos(order), { base64: small })),
    )
    expect(answers.filter(({ status }) => status === 201)).toHaveLength(40)
    const refused = answers.find(({ status }) => status === 409)!
    expect(refused.body.detail).toBe(
      'There are 40 photos of it already, and more would not be looked through',
    )
    await owner.made(photos(order), { base64: small, jointId: joint })
    expect(await list(order)).toHaveLength(41)
  })

  it('is seen and added by whom the roles name, and is not there for another shop or chain', async () => {
    const order = await addOrder()
    const photo = await owner.made<Attachment>(photos(order), { base64: base64(jpeg()) })
    const elsewhere = await makeShop(owner)
    const paths = [`/v1/repairOrders/${order}/attachments`, `/v1/attachments/${photo.id}/content`]
    for (const role of ['technician', 'scheduler', 'partsManager', 'owner']) {
      const here = await member(role, shop.shopId)
      for (const path of paths) expect([role, (await here.get(path)).status]).toEqual([role, 200])
      expect((await here.post(notes(order), { text: `By a ${role}` })).status).toBe(201)
      const there = await member(role, elsewhere.shopId)
      for (const path of paths) expect([role, (await there.get(path)).status]).toEqual([role, 404])
      expect((await there.post(notes(order), { text: 'From elsewhere' })).status).toBe(404)
      expect((await there.post(photos(order), { base64: base64(jpeg()) })).status).toBe(404)
      const withdrawal = `/v1/attachments/${photo.id}/withdrawal`
      expect((await there.post(withdrawal, { reason: 'From elsewhere' })).status).toBe(404)
    }
    const viewer = await member('viewer', shop.shopId)
    for (const path of paths) expect((await viewer.get(path)).status).toBe(200)
    expect((await viewer.post(notes(order), { text: 'Only looking' })).status).toBe(403)
    expect((await list(order)).filter(({ withdrawal }) => withdrawal !== null)).toEqual([])
  })
})
