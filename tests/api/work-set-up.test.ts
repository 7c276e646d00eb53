import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

interface Operation {
  readonly id: string
  readonly kind: string
  readonly jointName: string | null
  readonly position: number
  readonly workMinutes: number | null
  readonly version: number
}

const WEEK = [1, 2, 3, 4, 5].flatMap((weekday) => [
  { weekday, from: '07:00', until: '12:00' },
  { weekday, from: '12:30', until: '15:30' },
])

describe.each(ONE_KIND)('what the plan is made from, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let technicianId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    technicianId = (
      await test.owner.made(`/v1/shops/${shop.shopId}/resources`, {
        kind: 'technician',
        name: 'Invented Ann',
        skills: ['body', 'structural'],
      })
    ).id
  })
  afterAll(() => test.end())

  const inShop = (path: string) => `/v1/shops/${shop.shopId}/${path}`

  it('keeps the week of a shop, and that of somebody with hours of their own', async () => {
    const put = (body: object) => test.owner.put(inShop('workingHours'), body)
    expect((await put({ shifts: WEEK })).body).toEqual({ resourceId: null, shifts: WEEK })
    const early = [{ weekday: 6, from: '00:00', until: '24:00' }]
    await put({ resourceId: technicianId, shifts: early })
    expect(await test.owner.read(inShop('workingHours'))).toEqual({
      items: [
        { resourceId: null, shifts: WEEK },
        { resourceId: technicianId, shifts: early },
      ],
    })
    await put({ resourceId: technicianId, shifts: [] })
    expect((await test.owner.read<{ items: object[] }>(inShop('workingHours'))).items).toHaveLength(1)
  })

  it('names the shifts that overlap, and hours for what is nobody', async () => {
    const shifts = [
      { weekday: 1, from: '07:00', until: '12:00' },
      { weekday: 1, from: '11:59', until: '13:00' },
    ]
    const overlap = await test.owner.put(inShop('workingHours'), { shifts })
    expect(overlap.status).toBe(422)
    expect(overlap.body.reasons[0]).toMatchObject({
      field: 'body.shifts.1.from',
      message: expect.stringContaining('07:00 until 12:00 on Monday'),
    })
    const bay = await test.owner.put(inShop('workingHours'), { resourceId: shop.bayId, shifts: [] })
    expect(bay.body.reasons[0]).toMatchObject({ field: 'body.resourceId' })
    const backwards = [{ weekday: 1, from: '12:00', until: '07:00' }]
    expect((await test.owner.put(inShop('workingHours'), { shifts: backwards })).status).toBe(422)
  })

  it('keeps closed days, absences and overtime, and takes them back', async () => {
    const day = { firstDay: '2031-05-26', lastDay: '2031-05-26' }
    const closed = await test.owner.made(inShop('dayExceptions'), { kind: 'closed', ...day })
    await test.owner.made(inShop('dayExceptions'), { kind: 'absent', resourceId: technicianId, ...day })
    const overtime = { kind: 'overtime', from: '15:30', until: '17:30', ...day }
    await test.owner.made(inShop('dayExceptions'), overtime)
    const list = (from: string) =>
      test.owner.read<{ items: { kind: string }[] }>(inShop(`dayExceptions?from=${from}`))
    expect((await list('2031-05-26')).items.map((each) => each.kind).toSorted()).toEqual([
      'absent',
      'closed',
      'overtime',
    ])
    expect((await list('2031-05-27')).items).toEqual([])
    expect((await test.owner.delete(`/v1/dayExceptions/${closed.id}`)).status).toBe(204)
    expect((await test.owner.delete(`/v1/dayExceptions/${closed.id}`)).status).toBe(404)
  })

  it.each([
    [{ kind: 'closed', resourceId: 'technician' }, 'body.resourceId'],
    [{ kind: 'absent' }, 'body.resourceId'],
    [{ kind: 'overtime' }, 'body.from'],
    [{ kind: 'closed', from: '08:00' }, 'body.until'],
    [{ kind: 'overtime', resourceId: 'bay', from: '15:00', until: '16:00' }, 'body.resourceId'],
  ])('refuses %j, and names the field', async (body, field) => {
    const resourceId =
      'resourceId' in body ? { resourceId: body.resourceId === 'bay' ? shop.bayId : technicianId } : {}
    const answer = await test.owner.post(inShop('dayExceptions'), {
      firstDay: '2031-05-26',
      lastDay: '2031-05-26',
      ...body,
      ...resourceId,
    })
    expect(answer.status).toBe(422)
    expect(answer.body.reasons[0].field).toBe(field)
  })

  it('says what a bay has and what somebody can do, and not the other way round', async () => {
    const edit = (id: string, body: object) => test.owner.patch(`/v1/resources/${id}`, body, 1)
    expect((await edit(shop.bayId, { attributes: ['lift', 'heat'] })).body.attributes).toEqual([
      'lift',
      'heat',
    ])
    expect((await edit(shop.otherBayId, { skills: ['body'] })).body.reasons[0].field).toBe('body.skills')
    const twice = await edit(shop.otherBayId, { attributes: ['lift', 'lift'] })
    expect(twice.body.reasons[0].field).toBe('body.attributes')
  })

  it('expands a template for each joint, and the steps of the vehicle once', async () => {
    const { orderId, jointId } = await makeJoint(test.owner, shop)
    const path = `/v1/repairOrders/${orderId}/operations`
    await test.owner.made(path, { template: 'doorSkin', jointId })
    const second = await test.owner.post(path, { template: 'doorSkin', jointId })
    expect(second.body.type).toBe('/problems/wrong-state')
    const { items } = await test.owner.read<{ items: Operation[] }>(path)
    expect(items.map((each) => each.kind)).toEqual([
      'prepare',
      'dryFit',
      'bondAndClamp',
      'cure',
      'unclampAndDress',
      'sealAndPrime',
      'paint',
      'bake',
      'cool',
      'refit',
    ])
    expect(items.map(({ position }) => position)).toEqual(items.map((_, i) => i + 1))
    expect(items[3]).toMatchObject({ workMinutes: null, jointName: 'Door skin, left' })
    expect(items[5]).toMatchObject({ jointName: null })

    const longer = await test.owner.patch(`/v1/operations/${items[0]!.id}`, { workMinutes: 120 }, 1)
    expect(longer.body).toMatchObject({ workMinutes: 120, version: 2 })
    const cure = await test.owner.patch(`/v1/operations/${items[3]!.id}`, { workMinutes: 120 }, 1)
    expect(cure.body.reasons[0].field).toBe('body.workMinutes')
    // A bond goes with its cure.
    await test.owner.delete(`/v1/operations/${items[3]!.id}`)
    const left = await test.owner.read<{ items: Operation[] }>(path)
    expect(left.items.map((each) => each.kind)).not.toContain('bondAndClamp')
    expect(left.items.map(({ position }) => position)).toEqual(left.items.map((_, i) => i + 1))
  })

  it('keeps a bond and its cure on the list once the joint is bonded, and lets go of those that are abandoned', async () => {
    const { orderId, jointId } = await makeJoint(test.owner, shop)
    const path = `/v1/repairOrders/${orderId}/operations`
    const { items } = await test.owner.made<{ items: Operation[] }>(path, { template: 'doorSkin', jointId })
    const of = (what: string) => `/v1/operations/${items.find((each) => each.kind === what)!.id}`
    await steadyAir(test.owner, shop.sensorId, 23, test.clock.now)
    const [piece] = await receive(test.owner, shop)
    const bond = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    for (const what of ['bondAndClamp', 'cure']) {
      const refused = await test.owner.delete(of(what))
      expect(refused.body).toMatchObject({ type: '/problems/wrong-state', status: 409 })
      expect(refused.body.detail).toContain('Door skin, left is bonded')
    }
    expect((await test.owner.delete(of('refit'))).status).toBe(204)
    await test.owner.made(`/v1/bonds/${bond.id}/abandonment`, { reason: 'The panels were lifted apart' })
    expect((await test.owner.delete(of('cure'))).status).toBe(204)
    const left = await test.owner.read<{ items: Operation[] }>(path)
    expect(left.items.map((each) => each.kind)).not.toContain('bondAndClamp')
  })

  it('lets two people take steps off one vehicle one after the other', async () => {
    const { orderId, jointId } = await makeJoint(test.owner, shop)
    const path = `/v1/repairOrders/${orderId}/operations`
    const { items } = await test.owner.made<{ items: Operation[] }>(path, { template: 'doorSkin', jointId })
    const gone = items.filter(({ kind: what }) => what !== 'bondAndClamp' && what !== 'cure').slice(0, 6)
    const answers = await Promise.all(gone.map(({ id }) => test.owner.delete(`/v1/operations/${id}`)))
    expect(answers.map(({ status }) => status)).toEqual(gone.map(() => 204))
    const left = await test.owner.read<{ items: Operation[] }>(path)
    expect(left.items.map(({ position }) => position)).toEqual(left.items.map((_, i) => i + 1))
  })

  describe('the templates of a shop', () => {
    interface Template {
      readonly key: string
      readonly name: string
      readonly isOwn: boolean
      readonly version: number
      readonly steps: readonly { readonly kind: string; readonly workMinutes: number | null }[]
    }
    const templates = async () =>
      (await test.owner.read<{ items: Template[] }>(inShop('repairTemplates'))).items
    const templateOf = async (key: string) => (await templates()).find((each) => each.key === key)!
    const set = (key: string, body: object, version: number) =>
      test.owner.put(inShop(`repairTemplates/${key}`), body, version)
    const expand = async (template: string) => {
      const { orderId, jointId } = await makeJoint(test.owner, shop)
      return test.owner.post(`/v1/repairOrders/${orderId}/operations`, { template, jointId })
    }

    it('has a version of its own, uses it, and drops it again', async () => {
      const door = await templateOf('doorSkin')
      expect(door).toMatchObject({ isOwn: false, isBuiltIn: true, isSetAside: false, version: 0 })
      const steps = door.steps.slice(0, 5)
      const own = await set('doorSkin', { name: 'Our door', steps }, 0)
      expect(own.body).toMatchObject({ name: 'Our door', isOwn: true, isBuiltIn: true, version: 1 })
      expect((await expand('doorSkin')).body.items).toHaveLength(5)
      expect((await test.owner.delete(inShop('repairTemplates/doorSkin'))).status).toBe(204)
      expect(await templateOf('doorSkin')).toEqual(door)
    })

    it('names the step that is not as it must be', async () => {
      const { steps } = await templateOf('doorSkin')
      const apart = await set('doorSkin', { name: 'x', steps: [steps[3], steps[2]] }, 0)
      expect(apart.body.reasons).toMatchObject([
        { field: 'body.steps.0.kind', message: expect.stringContaining('right after the bond') },
        { field: 'body.steps.1.kind' },
      ])
      const timeless = steps.map((each) => ({ ...each, workMinutes: null }))
      const { body } = await set('doorSkin', { name: 'x', steps: timeless }, 0)
      expect(body.reasons[0].field).toBe('body.steps.0.workMinutes')
    })

    it('makes a new one, and tells the second of two editors', async () => {
      const { steps } = await templateOf('roof')
      const hood = { name: 'Hood', steps }
      expect((await set('hood', hood, 0)).body).toMatchObject({ isBuiltIn: false, version: 1 })
      // Two who read the same version, and two who made one of the same key.
      const answers = await Promise.all([set('hood', hood, 1), set('hood', { ...hood, name: 'Bonnet' }, 1)])
      expect(answers.map(({ status }) => String(status)).toSorted()).toEqual(['200', '412'])
      expect((await set('hood', hood, 0)).body.type).toBe('/problems/stale-version')
      expect((await set('fender', hood, 3)).body.type).toBe('/problems/stale-version')
      expect((await templateOf('hood')).version).toBe(2)
    })

    it('sets one aside: it stays on file and is given to no vehicle', async () => {
      const { name, steps } = await templateOf('rocker')
      const aside = await set('rocker', { name, steps, isSetAside: true }, 0)
      expect(aside.body).toMatchObject({ isSetAside: true, version: 1 })
      const refused = await expand('rocker')
      expect(refused.status).toBe(422)
      expect(refused.body.reasons[0]).toMatchObject({ field: 'body.template' })
      const csv = 'number,vehicle,template\nASIDE-1,Invented Estate,rocker'
      const imported = await test.owner.post(inShop('repairOrderImports'), { csv })
      expect(imported.body.reasons[0].message).toMatch('there is no template rocker')
      expect((await set('rocker', { name, steps }, 1)).body.isSetAside).toBe(false)
      expect((await expand('rocker')).status).toBe(201)
    })
  })

  it('imports repair orders with joints and operations, or nothing', async () => {
    const { items } = await test.owner.read<{ items: { id: string; name: string }[] }>('/v1/products')
    const product = items.find(({ id }) => id === shop.productId)!.name
    const head =
      'number,vehicle,priority,joint,product,panelMaterial,panelThicknessMm,safetyClass,lengthMm,flangeWidthMm,beadDiameterMm,template'
    const line = (number: string, of = product) =>
      `${number},Invented Estate,rush,Door skin,${of},mildSteel,0.8,S3,2600,12,4,doorSkin`
    const send = (...lines: string[]) =>
      test.owner.post(inShop('repairOrderImports'), { csv: [head, ...lines].join('\n') })
    const broken = await send(line('IMP-1'), line('IMP-2', 'Nobody’s glue'))
    expect(broken.status).toBe(422)
    expect(broken.body.reasons[0].message).toBe('Line 3: there is no product Nobody’s glue in the catalogue')
    const done = await send(line('IMP-1'), line('IMP-2'))
    expect(done.body.repairOrders).toMatchObject([{ number: 'IMP-1', jointCount: 1 }, { number: 'IMP-2' }])
    const [{ id }] = done.body.repairOrders as [{ id: string }]
    const order = await test.owner.read<{ priority: string }>(`/v1/repairOrders/${id}`)
    expect(order.priority).toBe('rush')
    const again = await send(line('IMP-2'))
    expect(again.body.reasons[0].message).toContain('IMP-2 in this shop already')
    // What only the table shows and what only the catalogue knows, in one answer.
    const both = await send(line('IMP-3').replace('rush', 'urgent'), line('IMP-4', 'Nobody’s glue'))
    expect(both.body.reasons.map(({ message }: { message: string }) => message)).toEqual([
      expect.stringMatching(/^Line 2: priority/),
      'Line 3: there is no product Nobody’s glue in the catalogue',
    ])
  })
})
