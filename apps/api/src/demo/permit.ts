import { verifyPassword } from '../foundation/access/secrets.ts'
import { nobodyExists } from '../foundation/access/set-up.ts'
import type { DemoRule } from '../foundation/config/config.ts'
import type { Database } from '../foundation/database/database.ts'
import { loadDemo } from './load.ts'
import { DEMO_PASSWORD } from './people.ts'

/**
 * What a start does about the demo chain: loads it into an empty database where that is the rule, and refuses to serve
 * one that is there where others reach the service and a printed password still opens it.
 *
 * @throws {Error} That says the ways out.
 */
export async function prepareDemo(database: Database, rule: DemoRule, now: Date): Promise<void> {
  if (rule === 'load' && (await nobodyExists(database))) {
    console.log('First start: loading the invented demo chain …')
    await loadDemo(database, now)
  }
  if (rule !== 'refuse') return
  const open = await openToAll(database)
  if (open.length === 0) return
  throw new Error(
    `The database holds the demo chain, and its passwords are printed in the README. Here others reach the service (HOST, PUBLIC_URL or TRUST_PROXY), and anybody could sign in as ${open.join(', ')}.
Do one of these:
  to begin with shops of your own: another DATA_DIR (or DATABASE_URL), which starts empty
  to keep this database: start it once with HOST=127.0.0.1 alone, and give each of these people another password or shut them out (Administration, People)
  to show the demo to others all the same, with nothing real in it: start with --demo (or DEMO=true)`,
  )
}

/** The people of a demo chain whom the printed password lets in. */
async function openToAll({ prisma }: Database): Promise<string[]> {
  const chains = await prisma.organization.findMany({ where: { isDemo: true }, select: { id: true } })
  const people = await prisma.person.findMany({
    where: { disabledAt: null, organizationId: { in: chains.map(({ id }) => id) } },
    orderBy: { email: 'asc' },
    select: { email: true, passwordHash: true },
  })
  const open: string[] = []
  // One after another: a check takes 128 MB.
  for (const { email, passwordHash } of people)
    if (await verifyPassword(DEMO_PASSWORD, passwordHash)) open.push(email)
  return open
}
