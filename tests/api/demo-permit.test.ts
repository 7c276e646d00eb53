import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { hashPassword } from '../../apps/api/src/foundation/access/secrets.ts'
import { nobodyExists } from '../../apps/api/src/foundation/access/set-up.ts'
import { prepareDemo } from '../../apps/api/src/demo/permit.ts'
import { freshDatabase, type TestDatabase } from '../support/databases.ts'
import { NOON } from '../support/test-app.ts'

describe('the demo chain, whose passwords everybody can read,', () => {
  let test: TestDatabase
  beforeAll(async () => {
    test = await freshDatabase('embedded')
  })
  afterAll(() => test.end())

  it('is left out where others reach the service, and where nobody wants it', async () => {
    await prepareDemo(test.database, 'refuse', NOON)
    await prepareDemo(test.database, 'serve', NOON)
    expect(await nobodyExists(test.database)).toBe(true)
  })

  // Loading the demo takes half a minute on a quiet machine.
  it(
    'is loaded where it may be, and then not served where others reach it',
    { timeout: 300_000 },
    async () => {
      await prepareDemo(test.database, 'load', NOON)
      expect(await nobodyExists(test.database)).toBe(false)
      await prepareDemo(test.database, 'load', NOON)
      await prepareDemo(test.database, 'serve', NOON)
      const refused = prepareDemo(test.database, 'refuse', NOON)
      await expect(refused).rejects.toThrow(/demo chain.*printed/s)
      await expect(refused).rejects.toThrow('--demo')
      await expect(refused).rejects.toThrow('DATA_DIR')
    },
  )

  it('is served anywhere once no printed password opens it', async () => {
    const { prisma } = test.database
    const [owner, ...others] = await prisma.person.findMany({ orderBy: { email: 'asc' } })
    await prisma.person.updateMany({
      where: { id: { in: others.map(({ id }) => id) } },
      data: { disabledAt: NOON },
    })
    await expect(prepareDemo(test.database, 'refuse', NOON)).rejects.toThrow(owner!.email)
    await prisma.person.update({
      where: { id: owner!.id },
      data: { passwordHash: await hashPassword('a sentence of my own') },
    })
    await prepareDemo(test.database, 'refuse', NOON)
  })
})
