import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { verifyRecords } from '../../apps/api/src/cure/records/verify.ts'
import { ONE_KIND } from '../support/databases.ts'
import {
  application,
  makeJoint,
  makeShop,
  PHOTO,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { pdfText } from '../support/pdf-text.ts'
import { jpeg, webp } from '../support/pictures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface BondRecord {
  readonly entries: readonly {
    readonly kind: string
    readonly by: string
    readonly at: string
    readonly facts: Readonly<Record<string, unknown>>
  }[]
  readonly chain: { readonly intact: boolean; readonly fault: string | null }
}

describe.each(ONE_KIND)('photos and notes in the bond record, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let orderId: string
  let jointId: string
  let bondId: string
  const ids: Record<string, string> = {}
  const hashes: Record<string, string> = {}

  const at = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * 60_000)
  }
  const photo = async (caption: string, bytes: Buffer, of: object) => {
    const { id, photo: kept } = await test.owner.made<{ id: string; photo: { sha256: string } }>(
      `/v1/repairOrders/${orderId}/photos`,
      { caption, base64: bytes.toString('base64'), ...of },
    )
    ids[caption] = id
    hashes[caption] = kept.sha256
  }
  const record = (id = bondId) => test.owner.read<BondRecord>(`/v1/bonds/${id}/record`)
  const faults = async () => (await verifyRecords(test.database)).faults
  const told = async () => (await faults()).map(({ what }) => what).join('\n')
  /** As somebody who owns the database could: past the triggers. */
  const meddle = async (sql: string, values: readonly unknown[] = []) => {
    await test.database.execute('alter table attachment disable trigger user')
    await test.database.prisma.$executeRawUnsafe(sql, ...values)
    await test.database.execute('alter table attachment enable trigger user')
  }

  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    at(0)
    ;({ orderId, jointId } = await makeJoint(test.owner, shop))
    await photo('The vehicle as it came', jpeg(), {})
    await photo('Flange bared', jpeg({ data: 4000 }), { jointId })
    at(1)
    await photo('Wrong flange', jpeg({ data: 5000 }), { jointId })
    await test.owner.made(`/v1/attachments/${ids['Wrong flange']}/withdrawal`, {
      reason: 'It is the other side',
    })
    at(5)
    const [piece] = await receive(test.owner, shop)
    bondId = (
      await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id, { bayId: null }))
    ).id
    at(10)
    await photo('Squeeze-out', Buffer.from(PHOTO.base64, 'base64'), { bondId })
    at(11)
    await photo('Clamps on', webp(), { jointId })
    at(12)
    const { id } = await test.owner.made<{ id: string }>(`/v1/repairOrders/${orderId}/notes`, {
      bondId,
      text: 'Bead was even all along',
    })
    ids['note'] = id
  })
  afterAll(() => test.end())

  it('has each of the joint and of the bond as an entry with its hash, those from before its first bond too', async () => {
    const { entries, chain } = await record()
    expect(chain.intact).toBe(true)
    expect(entries.map(({ kind: each }) => each)).toEqual([
      'applied',
      'photoAdded',
      'photoAdded',
      'attachmentWithdrawn',
      'photoAdded',
      'photoAdded',
      'noteAdded',
    ])
    const [, flange, , withdrawn, squeeze, , note] = entries
    expect(flange).toMatchObject({
      by: 'Owner',
      at: NOON.toISOString(),
      facts: { attachmentId: ids['Flange bared'], jointId, bondId: null, text: 'Flange bared' },
    })
    expect(withdrawn!.facts).toMatchObject({
      attachmentId: ids['Wrong flange'],
      reason: 'It is the other side',
    })
    expect(squeeze!.facts).toMatchObject({ bondId, sha256: hashes['Squeeze-out'] })
    const png = Buffer.from(PHOTO.base64, 'base64')
    expect(hashes['Squeeze-out']).toBe(createHash('sha256').update(png).digest('hex'))
    expect(note!.facts).toMatchObject({ bondId, text: 'Bead was even all along' })
    expect(await faults()).toEqual([])
  })

  it('is told on paper: captions, hashes, notes, withdrawals, and small pictures', async () => {
    const got = await test.owner.get(`/v1/bonds/${bondId}/record.pdf`).buffer(true).responseType('blob')
    const pdf = got.body as Buffer
    const text = pdfText(pdf).replaceAll(/\s+/g, ' ')
    for (const each of ['Flange bared', 'Squeeze-out', 'Clamps on', 'Bead was even all along'])
      expect(text).toContain(each)
    expect(text).toContain('Photo withdrawn by Owner: It is the other side')
    expect(text.replaceAll(' ', '')).toContain(hashes['Flange bared'])
    // One JPEG and one PNG are drawn; of the WebP it says that it cannot be, and the withdrawn one is only named.
    expect([...pdf.toString('latin1').matchAll(/\/Subtype \/Image/g)]).toHaveLength(2)
    expect(text).toContain('it cannot be printed here')
  })

  it('belongs to the record of the next attempt at the joint as well, what is of one attempt to that alone', async () => {
    at(20)
    await test.owner.made(`/v1/bonds/${bondId}/abandonment`, { reason: 'Panel slipped off', wasLifted: true })
    const [piece] = await receive(test.owner, shop)
    at(40)
    const second = await test.owner.made(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece!.id, { bayId: null }),
    )
    await photo('Second attempt', jpeg({ data: 6000 }), { bondId: second.id })
    at(41)
    await photo('Both see it', jpeg({ data: 7000 }), { jointId })
    const captions = ({ entries }: BondRecord) =>
      entries.filter(({ kind: each }) => each === 'photoAdded').map(({ facts }) => facts['text'])
    expect(captions(await record())).toEqual([
      'Flange bared',
      'Wrong flange',
      'Squeeze-out',
      'Clamps on',
      'Both see it',
    ])
    expect(new Set(captions(await record(second.id)))).toEqual(
      new Set(['Flange bared', 'Wrong flange', 'Clamps on', 'Second attempt', 'Both see it']),
    )
    expect(await faults()).toEqual([])
  })

  it.each([
    ['the caption of a photo', 'Squeeze-out', `text = 'All is well'`, '.text: the record says'],
    ['who took it', 'Squeeze-out', `recorded_by = 'Nobody'`, '.recorded_by: the record says'],
    ['when it was added', 'Squeeze-out', `at = at - interval '1 day'`, '.at: the record says'],
    ['what it is of', 'Squeeze-out', 'bond_id = null', '.bond_id: the record says'],
    ['a note', 'note', `text = 'Bead was not even'`, '.text: the record says'],
    ['why one was withdrawn', 'Wrong flange', `withdrawal_reason = 'Not liked'`, '.withdrawal_reason'],
    [
      'that one was withdrawn',
      'Wrong flange',
      'withdrawn_at = null, withdrawn_by = null, withdrawn_by_id = null, withdrawal_reason = null',
      'the record tells of it, and it is not in the table',
    ],
    [
      'that another was withdrawn',
      'Clamps on',
      `withdrawn_at = at, withdrawn_by = 'Nobody', withdrawn_by_id = recorded_by_id, withdrawal_reason = 'Not liked'`,
      'is in the table, and no entry tells of it',
    ],
  ])('names %s, changed in the database', async (_, which, set, named) => {
    const where = `id = '${ids[which]}'`
    await test.database.execute(`create table kept as select * from attachment where ${where}`)
    try {
      await meddle(`update attachment set ${set} where ${where}`)
      expect(await told()).toContain(named)
      expect(await told()).toContain(ids[which])
      expect((await record()).chain.intact).toBe(false)
    } finally {
      await meddle(`delete from attachment where ${where}`)
      await meddle('insert into attachment select * from kept')
      await test.database.execute('drop table kept')
    }
    expect(await faults()).toEqual([])
  })

  it('names a photo that was exchanged with its hash, one that was taken out, and one that was put in', async () => {
    const id = ids['Squeeze-out']!
    await test.database.execute(`create table kept as select * from attachment where id = '${id}'`)
    await meddle(
      `update attachment set content = $1, sha256 = encode(sha256($1), 'hex'), bytes = octet_length($1) where id = '${id}'`,
      [jpeg({ withMetadata: false })],
    )
    expect(await told()).toContain(`attachment ${id}.sha256: the record says "${hashes['Squeeze-out']}"`)
    await meddle(`delete from attachment where id = '${id}'`)
    expect(await told()).toContain(`attachment ${id}: the record tells of it, and it is not in the table`)
    await meddle('insert into attachment select * from kept')
    await test.database.execute('update kept set id = gen_random_uuid()')
    await meddle('insert into attachment select * from kept')
    expect(await told()).toContain('is in the table, and no entry tells of it')
    await meddle('delete from attachment a using kept where a.id = kept.id')
    await test.database.execute('drop table kept')
    expect(await faults()).toEqual([])
  })

  it.each(['Squeeze-out', 'The vehicle as it came'])(
    'names bytes that are not those of their hash: %s',
    async (which) => {
      const id = ids[which]!
      await test.database.execute(`create table kept as select * from attachment where id = '${id}'`)
      await expect(
        meddle(`update attachment set content = $1 where id = '${id}'`, [jpeg({ withMetadata: false })]),
      ).rejects.toThrow(/attachment__(hash|size)/)
      await test.database.execute('alter table attachment drop constraint attachment__hash')
      await test.database.execute('alter table attachment drop constraint attachment__size')
      await meddle(`update attachment set content = $1 where id = '${id}'`, [jpeg({ withMetadata: false })])
      expect(await told()).toBe(`attachment ${id}.content: is not the one that was hashed`)
      const got = await test.owner.get(`/v1/bonds/${bondId}/record.pdf`).buffer(true).responseType('blob')
      const text = pdfText(got.body as Buffer).replaceAll(/\s+/g, ' ')
      expect(text.includes('NOT the picture that was hashed')).toBe(which === 'Squeeze-out')
      await meddle(`update attachment a set content = kept.content from kept where a.id = kept.id`)
      await test.database.execute('drop table kept')
      await test.database.execute(
        `alter table attachment add constraint attachment__hash check (sha256 = encode(sha256(content), 'hex'));
         alter table attachment add constraint attachment__size check (bytes = octet_length(content))`,
      )
      expect(await faults()).toEqual([])
    },
  )

  it('refuses a change past the service', async () => {
    const run = (sql: string) => test.database.prisma.$executeRawUnsafe(sql)
    await expect(run(`update attachment set text = 'x' where id = '${ids['note']}'`)).rejects.toThrow(
      /append-only but for its withdrawal/,
    )
    await expect(run(`delete from attachment where id = '${ids['note']}'`)).rejects.toThrow(/append-only/)
    await expect(
      run(`update attachment set withdrawal_reason = 'x' where id = '${ids['Wrong flange']}'`),
    ).rejects.toThrow(/append-only/)
  })
})
