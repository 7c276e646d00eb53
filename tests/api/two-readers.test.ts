import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { queueAllDigests } from '../support/digests.ts'
import { makeShop, otherPerson, receive, type Shop } from '../support/fixtures.ts'
import { startTestApp, type Client, type TestApp } from '../support/test-app.ts'

const AMERICAN = { language: 'en', temperature: 'F', volume: 'flOz', length: 'in', clock: '12h', firstDay: 7 }
const SPANISH = { language: 'es', temperature: 'C', volume: 'mL', length: 'mm', clock: '24h', firstDay: 1 }

interface Told {
  readonly id: string
  readonly kind: string
  readonly message: string
  readonly said?: { readonly message: { readonly code: string; readonly params: object } }
}

describe('one alert, read by two people', () => {
  let test: TestApp
  let shop: Shop
  let inEnglish: Client
  let inSpanish: Client
  const openTo = async (client: Client) => (await client.read<{ items: Told[] }>('/v1/alerts')).items

  beforeAll(async () => {
    test = await startTestApp('embedded')
    inEnglish = test.owner
    shop = await makeShop(test.owner)
    await receive(test.owner, shop, { date: '2033-05-20', lotNumber: 'WARM' })
    test.clock.now = new Date(test.clock.now.getTime() + 3_600_000)
    await test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, {
      readings: [{ at: test.clock.now.toISOString(), temperatureC: 41.25 }],
    })
    inSpanish = await otherPerson(test.owner)
    await inEnglish.put('/v1/me/preferences', AMERICAN)
    await inSpanish.put('/v1/me/preferences', SPANISH)
    await watchAll(test.database, test.clock.now)
  })
  afterAll(() => test.end())

  const excursion = (alerts: readonly Told[]) => alerts.find(({ kind }) => kind === 'storageExcursion')!

  it('is told to each in the language and units of that person, and as the same data', async () => {
    const [one, other] = [excursion(await openTo(inEnglish)), excursion(await openTo(inSpanish))]
    expect(one.message).toMatch(
      /^Test adhesive \d+, lot WARM in Cabinet: was at 106\.3 °F; its storage range is 41\.0 °F to 86\.0 °F$/,
    )
    expect(other.message).toMatch(
      /^Test adhesive \d+, lote WARM en Cabinet: estuvo a 41,3 °C; su rango de almacenaje es de 5,0 °C a 30,0 °C$/,
    )
    expect(one.said).toMatchObject({
      message: {
        code: 'alert.storageExcursion',
        params: { lot: 'WARM', temperature: { celsius: 41.25 }, low: { celsius: 5 }, high: { celsius: 30 } },
      },
    })
    expect({ ...other, message: '' }).toEqual({ ...one, message: '' })
  })

  it('names its language, and what the answer depends on', async () => {
    const { headers } = await inSpanish.get('/v1/alerts')
    expect(headers).toMatchObject({ 'content-language': 'es' })
    expect(headers['vary']).toMatch(/accept-language/i)
  })

  it('is told so in an answer that is kept, to two who ask in the same second with the same roles', async () => {
    const told = async (client: Client) => {
      const { shops } = await client.read<{ shops: { alerts: Told[] }[] }>('/v1/overview')
      return excursion(shops[0]!.alerts).message
    }
    for (const _ of [1, 2]) {
      expect(await told(inEnglish)).toContain('106.3 °F')
      expect(await told(inSpanish)).toContain('41,3 °C')
    }
  })

  it('is told by what the request asks for where somebody has chosen nothing', async () => {
    await inSpanish.put('/v1/me/preferences', {
      language: null,
      temperature: null,
      volume: null,
      length: null,
      clock: null,
      firstDay: null,
    })
    const asked = async (accepted: string) => {
      const { body } = await inSpanish.get('/v1/alerts').set('accept-language', accepted)
      return excursion((body as { items: Told[] }).items).message
    }
    expect(await asked('es-MX, en;q=0.8')).toContain('estuvo a 41,3 °C')
    expect(await asked('fr, es-US;q=0.9, en;q=0.8')).toContain('estuvo a 106,3 °F')
    expect(await asked('en-US')).toContain('was at 106.3 °F')
    // A language alone tells no unit: that of the shop is shown.
    expect(await asked('en')).toContain('was at 41.3 °C')
    expect(await asked('*')).toContain('was at 41.3 °C')
    expect(await asked('fr;q=nonsense, ;;,')).toContain('was at 41.3 °C')
    await inSpanish.put('/v1/me/preferences', SPANISH)
  })

  it('is refused in the words of whoever is refused, with the same data', async () => {
    const id = '00000000-0000-4000-8000-000000000000'
    const refused = async (client: Client) => (await client.post(`/v1/alerts/${id}/acknowledgement`)).body
    const [one, other] = [await refused(inEnglish), await refused(inSpanish)]
    expect(one).toMatchObject({
      title: 'There is no such thing here',
      detail: `There is no alert ${id} here`,
    })
    expect(other).toMatchObject({ title: 'Aquí no hay tal cosa', detail: `Aquí no hay alerta ${id}` })
    expect(other.said).toEqual(one.said)
    expect(one.said.detail).toEqual({ code: 'problem.notFound', params: { what: 'alert', id } })
  })

  it('is mailed to each in their own words', async () => {
    for (const client of [inEnglish, inSpanish]) await client.put('/v1/me/digest', { hour: 13 })
    await queueAllDigests(test.database, undefined, test.clock.now)
    const mails = await test.database.prisma.delivery.findMany({ where: { webhookId: null } })
    const texts = mails.map(({ payload }) => JSON.parse(payload) as { subject: string; text: string })
    const english = texts.find(({ text }) => text.startsWith('What'))!
    const spanish = texts.find(({ text }) => text.startsWith('Lo que'))!
    expect(english.text).toContain('- WARNING: Test adhesive')
    expect(english.subject).toMatch(/^\d+ open alerts?: 7 May 2031$/)
    expect(spanish.text).toMatch(/^Lo que pide atención en sus talleres:/)
    expect(spanish.text).toContain('- ADVERTENCIA: Test adhesive')
    expect(spanish.subject).toMatch(/^\d+ alertas? abiertas?: 7 may 2031$/)
  })

  it('is not told anew at each look while it says the same', async () => {
    const before = await test.database.prisma.alert.findMany({ orderBy: { id: 'asc' } })
    const events = () => test.database.prisma.outboxEvent.count({ where: { topic: 'alerts' } })
    const told = await events()
    await watchAll(test.database, new Date(test.clock.now.getTime() + 1000))
    expect(await events()).toBe(told)
    expect(await test.database.prisma.alert.findMany({ orderBy: { id: 'asc' } })).toEqual(before)
  })

  it('from before it was data is told as it was written until the next look', async () => {
    const { id } = excursion(await openTo(inEnglish))
    await test.database.prisma.alert.update({
      where: { id },
      data: { code: 'alert.asWritten', params: { text: 'Was at 41 °C' } },
    })
    expect(excursion(await openTo(inSpanish)).message).toBe('Was at 41 °C')
    await watchAll(test.database, test.clock.now)
    expect(excursion(await openTo(inSpanish))).toMatchObject({
      id,
      said: { message: { code: 'alert.storageExcursion' } },
    })
  })
})
