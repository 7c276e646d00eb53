import type { Role } from '@clampclock/contracts'
import type { Database } from '../foundation/database/database.ts'

export interface DemoPerson {
  readonly name: string
  readonly email: string
  readonly role: Role
  /** Index of the shop; null: every shop. */
  readonly shop: number | null
}

/** One for all of them, and shown to everybody: the demo chain guards nothing. */
export const DEMO_PASSWORD = 'clamp-the-whole-flange'

const ADDRESS = 'bramblewick.example'

export const DEMO_PEOPLE: readonly DemoPerson[] = [
  { name: 'Odalys Fenwick', email: `owner@${ADDRESS}`, role: 'owner', shop: null },
  { name: 'Petra Quillfeather', email: `parts@${ADDRESS}`, role: 'partsManager', shop: null },
  { name: 'Silas Underhay', email: `scheduler@${ADDRESS}`, role: 'scheduler', shop: null },
  { name: 'Tamsin Rookwood', email: `technician@${ADDRESS}`, role: 'technician', shop: 0 },
  { name: 'Bartle Oakenshaw', email: `bartle@${ADDRESS}`, role: 'technician', shop: 0 },
  { name: 'Wilma Thistlewood', email: `wilma@${ADDRESS}`, role: 'technician', shop: 1 },
  { name: 'Corwin Haddock', email: `corwin@${ADDRESS}`, role: 'technician', shop: 2 },
  { name: 'Elspeth Marrow', email: `elspeth@${ADDRESS}`, role: 'technician', shop: 3 },
  { name: 'Ivo Puddlestone', email: `viewer@${ADDRESS}`, role: 'viewer', shop: null },
]

/** Those that the sign-in page and the terminal show: one of each kind. */
export async function demoSignIns(
  database: Database,
): Promise<{ name: string; role: string; email: string; password: string; shop: string }[]> {
  const organization = await database.prisma.organization.findFirst({ where: { isDemo: true } })
  if (!organization) return []
  const people = await database.prisma.person.findMany({
    where: { organizationId: organization.id, disabledAt: null },
    include: { memberships: { include: { shop: true } } },
  })
  const shown = new Set<string>()
  return DEMO_PEOPLE.flatMap((demo) => {
    const person = people.find(({ email }) => email === demo.email)
    if (!person || shown.has(demo.role)) return []
    shown.add(demo.role)
    const shop = person.memberships[0]?.shop?.name ?? 'every shop'
    return [{ name: person.name, role: demo.role, email: person.email, password: DEMO_PASSWORD, shop }]
  })
}
