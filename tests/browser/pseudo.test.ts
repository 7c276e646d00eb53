import { beforeAll, expect, it } from 'vitest'
import { describeInBrowser, visit, type Role } from './browser.ts'
import { cutOff, openPseudo, outside } from './pseudo.ts'
import { makeJob, makeWorld, startBond } from './world.ts'

/** Screens by their address. */
const SCREENS: readonly (readonly [Role, string])[] = [
  ['technician', '/my-work'],
  ['owner', '/overview'],
  ['owner', '/bays'],
  ['owner', '/jobs'],
  ['owner', '/jobs/new'],
  ['owner', '/schedule'],
  ['owner', '/plan'],
  ['owner', '/plan/figures'],
  ['owner', '/plan/setup'],
  ['owner', '/plan/setup/new'],
  ['owner', '/stock'],
  ['owner', '/stock/receive'],
  ['owner', '/stock/move'],
  ['owner', '/stock/shipments'],
  ['owner', '/stock/counts'],
  ['owner', '/stock/reservations'],
  ['owner', '/stock/lots'],
  ['owner', '/stock/movements'],
  ['owner', '/ordering'],
  ['owner', '/waste'],
  ['owner', '/products'],
  ['owner', '/products/new'],
  ['owner', '/alerts'],
  ['owner', '/admin/people'],
  ['owner', '/admin/qualifications'],
  ['owner', '/admin/tokens'],
  ['owner', '/admin/webhooks'],
  ['owner', '/admin/shops'],
  ['owner', '/admin/ordering'],
  ['owner', '/admin/equipment'],
  ['owner', '/help'],
]

describeInBrowser('a language that nobody speaks', () => {
  // A joint of the owner's that is open: its bar stands over every screen, and speaks too.
  beforeAll(async () => {
    const world = await makeWorld()
    await startBond(world, (await makeJob(world)).joint)
  })

  it.each(SCREENS)('is all that %s reads at %s, and nothing is cut', async (role, path) => {
    const { page, answers } = await openPseudo(role)
    await visit(page, path)
    await page.getByRole('heading', { level: 1 }).first().waitFor()
    await page.waitForLoadState('networkidle').catch(() => undefined)
    const said = await outside(page, answers)
    const isCut = await cutOff(page)
    await page.context().close()
    expect({ said, isCut }).toEqual({ said: [], isCut: [] })
  })
})
