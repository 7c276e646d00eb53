import { NO_PREFERENCES, type Actor } from '../foundation/permissions/actor.ts'
import { hashPassword } from '../foundation/access/secrets.ts'
import { addProduct, approveProductSheet, getProduct } from '../work/catalogue/products.ts'
import { enterChain } from '../foundation/database/in-chain.ts'
import type { Tx } from '../foundation/database/database.ts'
import { addInstruments, addQualifications } from './instruments.ts'
import { DEMO_PASSWORD, DEMO_PEOPLE, type DemoPerson } from './people.ts'
import { DEMO_PRODUCTS } from './products.ts'
import { seeded } from './random.ts'
import { DEMO_SHOPS, type DemoShop } from './shops.ts'
import { hoursFrom, type World, type WorldShop } from './world.ts'

const SEED = 20_311

/** The chain itself: its shops and what is in them, its people, its catalogue. */
export async function buildChain(tx: Tx, now: Date): Promise<World> {
  const organization = await tx.organization.create({
    data: { name: 'Bramblewick Panel & Paint (demo)', isDemo: true },
  })
  await enterChain(tx, organization.id)
  const shopIds: string[] = []
  for (const plan of DEMO_SHOPS) {
    const { id } = await tx.shop.create({
      data: {
        organizationId: organization.id,
        name: plan.name,
        timeZone: plan.timeZone,
        temperatureUnit: plan.temperatureUnit,
      },
    })
    shopIds.push(id)
  }
  const actors = await addPeople(tx, organization, shopIds)
  const actorOf = (role: DemoPerson['role'], shop: number | null) => {
    const i = DEMO_PEOPLE.findIndex(
      (person) => person.role === role && (shop === null || person.shop === shop),
    )
    return actors[i]!
  }
  const owner = actorOf('owner', null)
  const shops: WorldShop[] = []
  for (const [i, plan] of DEMO_SHOPS.entries())
    shops.push({
      ...(await equip(tx, organization.id, shopIds[i]!, plan, actorOf('technician', i), actors)),
      instruments: await addInstruments(tx, owner, shopIds[i]!, i, now),
    })
  await addQualifications(tx, owner, actors, now)

  const products: World['products'][number][] = []
  const catalogued = hoursFrom(now, -24 * 300)
  // Typed by one, compared with the print by another: else it would not count.
  const second = actorOf('partsManager', null)
  for (const product of DEMO_PRODUCTS) {
    const { id } = await addProduct(tx, owner, product, catalogued)
    const { sheets } = await getProduct(tx, id, catalogued)
    for (const sheet of sheets)
      await approveProductSheet(tx, second, { productId: id, sheetId: sheet.id }, false, catalogued)
    products.push({ id, name: product.name, form: product.cartridgeForm, openLifeDays: product.openLifeDays })
  }
  return {
    tx,
    now,
    random: seeded(SEED),
    organizationId: organization.id,
    owner,
    partsManager: actorOf('partsManager', null),
    scheduler: actorOf('scheduler', null),
    products,
    shops,
  }
}

async function addPeople(
  tx: Tx,
  organization: Actor['organization'],
  shopIds: readonly string[],
): Promise<Actor[]> {
  // One hash for all: they share a password that is shown to everybody anyway.
  const passwordHash = await hashPassword(DEMO_PASSWORD)
  const actors: Actor[] = []
  for (const { name, email, role, shop } of DEMO_PEOPLE) {
    const shopId = shop === null ? null : (shopIds[shop] ?? null)
    const { id } = await tx.person.create({
      data: { organizationId: organization.id, name, email, passwordHash },
    })
    await tx.membership.create({ data: { organizationId: organization.id, personId: id, shopId, role } })
    actors.push({
      kind: 'person',
      id,
      name,
      email,
      organization,
      memberships: [{ shopId, role }],
      preferences: NO_PREFERENCES,
      token: null,
      session: null,
    })
  }
  return actors
}

async function equip(
  tx: Tx,
  organizationId: string,
  shopId: string,
  plan: DemoShop,
  technician: Actor,
  people: readonly Actor[],
): Promise<Omit<WorldShop, 'instruments'>> {
  const scope = { organizationId, shopId }
  const bays: WorldShop['bays'][number][] = []
  for (const name of plan.bays) bays.push(await tx.resource.create({ data: { ...scope, kind: 'bay', name } }))
  const oven = await tx.resource.create({ data: { ...scope, kind: 'oven', name: plan.oven } })
  const clampSets = []
  for (const set of plan.clampSets)
    clampSets.push(await tx.resource.create({ data: { ...scope, kind: 'clampSet', ...set } }))
  for (const person of people) {
    const worksHere = person.memberships.some(
      (membership) => membership.role === 'technician' && membership.shopId === shopId,
    )
    if (worksHere)
      await tx.resource.create({
        data: { ...scope, kind: 'technician', name: person.name, personId: person.id },
      })
  }
  const dispensers: WorldShop['dispensers'][number][] = []
  for (const { name, cartridgeForms } of plan.dispensers) {
    dispensers.push(
      await tx.dispenser.create({ data: { ...scope, name, cartridgeForms: [...cartridgeForms] } }),
    )
  }
  const placeIds: string[] = []
  for (const name of plan.places)
    placeIds.push((await tx.storageLocation.create({ data: { ...scope, name } })).id)
  return {
    id: shopId,
    plan,
    bays,
    ovenId: oven.id,
    clampSetId: clampSets[0]!.id,
    dispensers,
    placeIds,
    technician,
  }
}
