import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { sqlState, violatedConstraint } from '../../apps/api/src/foundation/database/sql-state.ts'
import { KINDS } from '../support/databases.ts'
import { makeShop, otherPerson, SHEET } from '../support/fixtures.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

/** What the database refuses by itself of what is decided on a data sheet: raw SQL, asserted by SQLSTATE and by name. */
describe.each(KINDS)('decisions on data sheets in the %s database', (kind) => {
  let test: TestApp
  let productId: string
  let recorderId: string
  let otherId: string
  let serial = 0
  let sheetId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    productId = (await makeShop(test.owner)).productId
    recorderId = (await test.owner.read<{ id: string }>('/v1/me')).id
    otherId = (await (await otherPerson(test.owner)).read<{ id: string }>('/v1/me')).id
  })
  beforeEach(async () => {
    serial += 1
    await test.owner.made(`/v1/products/${productId}/sheets`, { ...SHEET, revision: `R${serial}` })
    const { sheets } = await test.owner.read<{ sheets: { id: string; revision: string }[] }>(
      `/v1/products/${productId}`,
    )
    sheetId = sheets.find(({ revision }) => revision === `R${serial}`)!.id
  })
  afterAll(() => test.end())

  const refused = async (sql: string): Promise<[string | undefined, string | undefined]> => {
    const error: unknown = await test.database.prisma.$executeRawUnsafe(sql).then(
      () => undefined,
      (reason: unknown) => reason,
    )
    return [sqlState(error), violatedConstraint(error)]
  }
  const decision = (changes: Record<string, string> = {}) => {
    const row = {
      outcome: `'approved'`,
      reason: `''`,
      decided_at: `recorded_at + interval '1 day'`,
      decided_by: `'${otherId}'`,
      second_look: 'false',
      ...changes,
    }
    return `insert into product_sheet_decision (sheet_id, organization_id, decided_by_name, ${Object.keys(row).join(', ')})
      select id, organization_id, 'x', ${Object.values(row).join(', ')} from product_sheet where id = '${sheetId}'`
  }

  it('takes one decision on a sheet, and never changes it', async () => {
    expect(await refused(decision())).toEqual([undefined, undefined])
    expect((await refused(decision({ outcome: `'rejected'`, reason: `'Wrong'` })))[0]).toBe('23505')
    expect((await refused(`update product_sheet_decision set outcome = 'rejected'`))[0]).toBe('CC001')
    expect((await refused(`delete from product_sheet_decision`))[0]).toBe('CC001')
  })

  it.each([
    ['product_sheet_decision__outcome', { outcome: `'perhaps'` }],
    ['product_sheet_decision__reason', { outcome: `'rejected'`, reason: `' '` }],
    ['product_sheet_decision__after', { decided_at: `recorded_at - interval '1 second'` }],
    ['product_sheet_decision__by_somebody', { decided_by: 'null' }],
    ['product_sheet_decision__second_look', { second_look: 'true' }],
  ])('refuses by %s', async (name, changes) => {
    expect(await refused(decision(changes))).toEqual(['23514', name])
  })

  it('lets nobody approve an own sheet but by a second look, and nobody of another chain', async () => {
    const own = { decided_by: `'${recorderId}'` }
    expect(await refused(decision(own))).toEqual(['23514', 'product_sheet_decision__second_look'])
    expect(await refused(decision({ decided_by: 'gen_random_uuid()' }))).toEqual([
      '23503',
      'product_sheet_decision__person',
    ])
    expect(await refused(decision({ ...own, second_look: 'true' }))).toEqual([undefined, undefined])
  })

  it('keeps once that releases were looked at again because of a sheet, and only of one that is decided on', async () => {
    const recheck = `insert into product_sheet_recheck select id, organization_id, now() from product_sheet where id = '${sheetId}'`
    expect(await refused(recheck)).toEqual(['23503', 'product_sheet_recheck__decision'])
    await test.database.prisma.$executeRawUnsafe(decision())
    expect(await refused(recheck)).toEqual([undefined, undefined])
    expect((await refused(recheck))[0]).toBe('23505')
    expect((await refused('delete from product_sheet_recheck'))[0]).toBe('CC001')
  })

  it.each([
    ['product_sheet_document__pdf', { pdf: `'<html>'` }],
    ['product_sheet_document__hash', { sha256: `repeat('0', 64)` }],
    ['product_sheet_document__size', { bytes: '9' }],
    ['product_sheet_document__size', { pdf: `'%PDF-' || repeat('x', 5242876)` }],
  ])('keeps no document that is another than it says: %s', async (name, changes: Record<string, string>) => {
    const text = changes['pdf'] ?? `'%PDF-1.7 %%EOF'`
    const pdf = `convert_to(${text}, 'UTF8')`
    const { bytes = `octet_length(${pdf})`, sha256 = `encode(sha256(${pdf}), 'hex')` } = changes
    const insert = `insert into product_sheet_document (organization_id, sheet_id, name, pdf, sha256, bytes, recorded_at, recorded_by_name)
      select organization_id, id, 'x', ${pdf}, ${sha256}, ${bytes}, now(), 'x' from product_sheet where id = '${sheetId}'`
    expect(await refused(insert)).toEqual(['23514', name])
  })

  it('keeps a revision once for each take, and its first day after its issue', async () => {
    const copy = (changes: string) => `insert into product_sheet
      select (jsonb_populate_record(s, jsonb_build_object('id', gen_random_uuid()) || '${changes}'::jsonb)).*
        from product_sheet s where id = '${sheetId}'`
    expect(await refused(copy('{}'))).toEqual(['23505', 'product_sheet__revision_once'])
    expect(await refused(copy('{"take": 0}'))).toEqual(['23514', 'product_sheet__take'])
    expect(await refused(copy('{"take": 2, "valid_from": "2029-12-31"}'))).toEqual([
      '23514',
      'product_sheet__valid_from',
    ])
    expect(await refused(copy('{"take": 2, "valid_from": "2030-01-01"}'))).toEqual([undefined, undefined])
  })
})
