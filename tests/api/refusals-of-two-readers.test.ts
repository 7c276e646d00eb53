import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Said {
  readonly code: string
  readonly params: object
}
interface Reason {
  readonly code: string
  readonly field?: string
  readonly message: string
  readonly fix?: string
  readonly said?: { readonly message?: Said; readonly fix?: Said }
}
interface Refusal {
  readonly detail: string
  readonly said: { readonly title: Said; readonly detail: Said }
  readonly reasons: readonly Reason[]
}

describe('a refusal, read by two people', () => {
  let test: TestApp
  let shop: Shop
  let cartridgeId: string
  let lotId: string
  let bondId: string
  let orderId: string
  let jointId: string

  beforeAll(async () => {
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece, other] = await receive(test.owner, shop, { cartridges: 2, lotNumber: 'L-1' })
    cartridgeId = other!.id
    const { items } = await test.owner.read<{ items: { id: string }[] }>('/v1/lots?limit=1')
    lotId = items[0]!.id
    const made = await makeJoint(test.owner, shop)
    jointId = made.jointId
    orderId = made.orderId
    bondId = (await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))).id
  })
  afterAll(() => test.end())

  /** Both are told the same data, each in words of his own; no word of it is of the service's own making. */
  async function both(path: string, body: object): Promise<readonly [Refusal, Refusal]> {
    const told = async (language: string) => {
      const answer = await test.owner.post(path, body).set('accept-language', language)
      expect([path, answer.status >= 400, answer.status < 500]).toEqual([path, true, true])
      return answer.body as Refusal
    }
    const [english, spanish] = [await told('en'), await told('es')]
    expect(spanish.said).toEqual(english.said)
    expect(spanish.reasons.map(({ said }) => said)).toEqual(english.reasons.map(({ said }) => said))
    expect(spanish.detail).not.toBe(english.detail)
    for (const { said, fix } of spanish.reasons) {
      expect(said?.message?.code).toMatch(/^[a-z-]+\.\w+/)
      expect(said?.message?.code).not.toBe('problem.asTold')
      expect(said?.fix === undefined).toBe(fix === undefined)
    }
    return [english, spanish]
  }

  it('of stock: a label, a cartridge, a lot, a delivery', async () => {
    const [english, spanish] = await both(`/v1/shops/${shop.shopId}/scans`, { text: '12345678901234' })
    expect(english.detail).toBe('The check digit of 12345678901234 is wrong: scan or type it again')
    expect(spanish.detail).toBe(
      'El dígito de control de 12345678901234 es erróneo: escanéelo o escríbalo de nuevo',
    )
    expect(spanish.said.detail).toEqual({
      code: 'stock-problem.wrongCheckDigit',
      params: { digits: '12345678901234' },
    })
    const [, notOpened] = await both(`/v1/cartridges/${cartridgeId}/nozzleChange`, {})
    expect(notOpened.detail).toMatch(/^Solo un cartucho abierto tiene boquilla; .+ está sellado$/)
    const [, notHeld] = await both(`/v1/lots/${lotId}/holdEnd`, { reason: 'looked at it' })
    expect(notHeld.detail).toBe('El lote L-1 no está retenido')
    const [, noProduct] = await both(`/v1/shops/${shop.shopId}/receipts`, {
      productId: '00000000-0000-4000-8000-000000000000',
      lotNumber: 'X',
      printedExpiry: { date: '2033-05-20' },
      cartridges: 1,
    })
    expect(noProduct.reasons[0]).toMatchObject({
      field: 'body.productId',
      message: 'no nombra ningún producto de esta cadena',
      fix: 'Añada primero el producto',
    })
  })

  it('of cure: a bond that is running, an instant that is over', async () => {
    const [english, spanish] = await both(`/v1/joints/${jointId}/bonds`, application(shop, cartridgeId))
    expect(english.detail).toMatch(/^A bond is running on .+ already$/)
    expect(spanish.detail).toMatch(/^Ya hay un pegado en curso en .+$/)
    expect(spanish.reasons[0]!.fix).toBe('Abandónelo primero: el reloj vuelve a empezar con un nuevo intento')
    const [before, antes] = await both(`/v1/bonds/${bondId}/clamping`, { at: '2031-05-07T00:00:00Z' })
    expect(before.detail).toMatch(/^is before \d+ \w+ 2031, \d\d:\d\d, which it must follow$/)
    expect(antes.detail).toMatch(/^es anterior a \d+ \w+ 2031, \d\d:\d\d, a lo que debe seguir$/)
  })

  it('of planning: no hours, no operations, a place that is taken', async () => {
    const [, spanish] = await both(`/v1/shops/${shop.shopId}/plans`, {})
    expect(spanish.reasons[0]).toMatchObject({ fix: 'Defina primero su semana de trabajo' })
    const at = (hour: number) => new Date(NOON.getTime() + hour * 3_600_000).toISOString()
    const booking = {
      resourceId: shop.otherBayId,
      repairOrderId: orderId,
      startsAt: at(30),
      endsAt: at(32),
      purpose: 'work',
    }
    await test.owner.made('/v1/bookings', booking)
    const [taken, tomada] = await both('/v1/bookings', booking)
    expect(taken.detail).toMatch(/ is booked \w{3} \d\d:\d\d to \w{3} \d\d:\d\d for /)
    expect(tomada.detail).toMatch(/ está reservado de .+ \d\d:\d\d a .+ \d\d:\d\d para /)
  })

  it('of set-up: what only an owner may, a sheet that cannot be', async () => {
    const sheet = {
      revision: 'B',
      issuedOn: '2030-02-01',
      points: [{ temperatureC: 23, workTimeMinutes: 60, handlingTimeMinutes: 30, fullCureMinutes: 1440 }],
      applicationRangeC: { min: 10, max: 35 },
      lowestCureC: 5,
      highestCureC: 80,
      serviceRangeC: { min: -40, max: 120 },
    }
    const [english, spanish] = await both(`/v1/products/${shop.productId}/sheets`, sheet)
    expect(english.reasons[0]!.message).toBe(
      'Line 1: work time (60 min) cannot be longer than handling time (30 min)',
    )
    expect(spanish.reasons[0]!.message).toBe(
      'Línea 1: el tiempo de trabajo (60 min) no puede ser mayor que el de manipulación (30 min)',
    )
    expect(spanish.detail).toMatch(/^La hoja de datos no puede ser correcta: Línea 1/)
  })

  it('of fields: what the contract says of each, and what zod does', async () => {
    const [english, spanish] = await both(`/v1/shops/${shop.shopId}/sensors`, {
      name: '',
      shopId: 7,
      extra: true,
      accuracyC: 'warm',
      resourceId: null,
      locationId: null,
    })
    const of = ({ reasons }: Refusal) => Object.fromEntries(reasons.map((each) => [each.field, each]))
    expect(of(english)['body.name']!.message).toBe('must not be empty')
    expect(of(spanish)['body.name']).toMatchObject({
      message: 'no debe estar vacío',
      said: { message: { code: 'field.notEmpty', params: {} } },
    })
    expect(of(english)['body.accuracyC']!.message).toBe('Invalid input: expected number, received string')
    expect(of(spanish)['body.accuracyC']).toMatchObject({
      message: 'Entrada no válida: se esperaba un número, se recibió texto',
      said: { message: { code: 'field.invalidType', params: { expected: 'number', received: 'string' } } },
    })
  })

  it('of a calendar address that is none, in the language of the address', async () => {
    const told = await test.anybody.get('/feeds/nothing-of-the-kind.ics').set('accept-language', 'es')
    expect(told.body.detail).toBe('No hay tal calendario, o ya no lo hay')
  })

  it('of a table: each fault with its line', async () => {
    const [english, spanish] = await both(`/v1/sensors/${shop.sensorId}/readingsTable`, {
      csv: 'at,temperatureC\n2031-05-07T08:00:00Z,warm\n2031-05-07T09:00:00Z,300\n',
    })
    expect(english.reasons.map(({ message }) => message)[0]).toMatch(/^Line 2, temperatureC: /)
    expect(spanish.reasons.map(({ message }) => message)[0]).toMatch(/^Línea 2, temperatureC: /)
  })
})

describe('a table and a calendar', () => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  it("have their headings and cells in the reader's language", async () => {
    await receive(test.owner, shop, { lotNumber: 'L-2' })
    const { items } = await test.owner.read<{ items: { id: string }[] }>('/v1/lots?limit=1')
    const lines = async (path: string, language: string) =>
      (await test.owner.get(path).set('accept-language', language)).text.trim().split('\r\n')
    for (const [path, english, spanish] of [
      ['recall.csv', /What,Product,Lot/, /Qué,Producto,Lote/],
      ['life.csv', /At \(UTC\),What,Product,Lot/, /A las \(UTC\),Qué,Producto,Lote/],
    ] as const) {
      expect((await lines(`/v1/lots/${items[0]!.id}/${path}`, 'en'))[0]).toMatch(english)
      expect((await lines(`/v1/lots/${items[0]!.id}/${path}`, 'es'))[0]).toMatch(spanish)
    }
    expect((await lines(`/v1/lots/${items[0]!.id}/recall.csv`, 'en'))[1]).toContain('sealed,no,no')
    expect((await lines(`/v1/lots/${items[0]!.id}/recall.csv`, 'es'))[1]).toContain('sellado,no,no')
  })

  it('say what the service writes in a calendar as its address asks', async () => {
    const { orderId } = await makeJoint(test.owner, shop)
    await test.owner.made('/v1/bookings', {
      resourceId: shop.bayId,
      repairOrderId: orderId,
      startsAt: new Date(NOON.getTime() + 3_600_000).toISOString(),
      endsAt: new Date(NOON.getTime() + 7_200_000).toISOString(),
    })
    const { path } = await test.owner.made<{ path: string }>(`/v1/resources/${shop.bayId}/calendarFeeds`, {})
    expect((await test.anybody.get(path)).text).toContain('SUMMARY:In the bay: ')
    expect((await test.anybody.get(`${path}?language=es`)).text).toContain('SUMMARY:En el puesto: ')
  })
})
