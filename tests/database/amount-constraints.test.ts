import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { sqlState, violatedConstraint } from '../../apps/api/src/foundation/database/sql-state.ts'
import { KINDS } from '../support/databases.ts'
import { application, freshBay, makeJoint, makeShop, receive } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

/** Whoever writes: less than the joint needed is never on file without a reason, nor a reason without less. */
describe.each(KINDS)('the amount of a bond in the %s database', (kind) => {
  let test: TestApp
  let bondId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    const shop = await freshBay(test.owner, await makeShop(test.owner), NOON)
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    bondId = (await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))).id
  })
  afterAll(() => test.end())

  const set = (sql: string) =>
    test.database.prisma.$executeRawUnsafe(`update bond set ${sql} where id = '${bondId}'`)
  const refused = async (sql: string): Promise<(string | undefined)[]> => {
    const error: unknown = await set(sql).then(
      () => undefined,
      (reason: unknown) => reason,
    )
    return [sqlState(error), violatedConstraint(error)]
  }

  it('has a reason where it is short in whole millilitres, and only there', async () => {
    const short = ['23514', 'bond__short_amount']
    expect(await refused('amount_needed_ul = 50001')).toEqual(short)
    expect(await refused("short_amount_reason = 'It was enough'")).toEqual(short)
    expect(await refused("amount_needed_ul = null, short_amount_reason = 'Of what need?'")).toEqual(short)
    expect(await refused("amount_needed_ul = 60000, short_amount_reason = ''")).toEqual([
      '23514',
      'bond__short_amount_says_why',
    ])
    expect(await refused('amount_needed_ul = 0')).toEqual(['23514', 'bond__amount_needed'])
    // 49.2 of 49.9 mL are read as 50 of 50.
    await set('amount_ul = 49200, amount_needed_ul = 49900')
    await set("amount_ul = 49000, short_amount_reason = 'The flange is narrower than drawn'")
    expect(await refused('short_amount_reason = null')).toEqual(short)
  })
})
