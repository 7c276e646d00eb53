import { keptReason } from '../foundation/words/kept.ts'
import { message } from '@clampclock/messages'
import { check, defineProblem, solve } from '@clampclock/planner'
import type { RepairTemplate, Skill } from '@clampclock/contracts'
import { addOperations } from '../planning/operations/operations.ts'
import { gatherFacts } from '../planning/problem/gather.ts'
import { interpret } from '../planning/problem/interpret.ts'
import { onlyOf, workVersionsOf } from '../planning/operations/changed-orders.ts'
import { keepPlan, notesJson, plannedJson, summaryOf } from '../planning/plans/keep-plan.ts'
import { priceOf } from '../planning/plans/left-out.ts'
import { makePublished } from '../planning/plans/publish.ts'
import { solveInTurn } from '../planning/problem/set-aside.ts'
import { addJob } from './jobs.ts'
import { addSensor } from './readings.ts'
import { seeded } from './random.ts'
import { bayAir } from './temperatures.ts'
import type { World, WorldShop } from './world.ts'

const SEED = 60_613
/** Enough for a plan that a scheduler would sign, and little enough for a first start. */
const ITERATIONS = 150

const BODY: Skill[] = ['body', 'structural', 'fitting']
const EVERYTHING: Skill[] = [...BODY, 'aluminium', 'welding', 'paint']

/** Vehicles to come at the largest shop: which template, which adhesive, promised in how many hours. */
const TO_COME: readonly (readonly [
  template: RepairTemplate['key'],
  product: string,
  panel: number,
  hours: number,
])[] = [
  ['doorSkin', 'Snark Panel 90', 0, 54],
  ['quarterPanel', 'Boojum Structural 60', 1, 78],
  ['aluminiumPanel', 'Snark Alloy 50', 4, 76],
  ['rocker', 'Boojum Structural 60', 2, 102],
  ['doorSkin', 'Snark Panel 90', 0, 100],
  ['roof', 'Snark Panel 90', 3, 126],
  ['quarterPanel', 'Boojum Structural 60', 1, 148],
  ['doorSkin', 'Snark Quick 20', 0, 146],
]

/** Working weeks everywhere; at the largest shop two more bays, four more people, and a week of work with its published plan. */
export async function addPlannedWork(world: World): Promise<void> {
  for (const shop of world.shops) await addWeek(world, shop)
  const [harbour] = world.shops as [WorldShop]
  const bays = await addBays(world, harbour)
  for (const [name, skills] of [
    ['Jory Penhallow', BODY],
    ['Merrin Tregenza', BODY],
    ['Lowen Carrack', EVERYTHING],
    ['Demelza Pym', ['paint', 'fitting'] satisfies Skill[]],
  ] as const)
    await world.tx.resource.create({
      data: {
        organizationId: world.organizationId,
        shopId: harbour.id,
        kind: 'technician',
        name,
        skills: [...skills],
      },
    })
  await world.tx.resource.updateMany({
    where: { id: harbour.bays[2]!.id },
    data: { attributes: ['frameBench'] },
  })
  await world.tx.resource.updateMany({ where: { id: harbour.bays[0]!.id }, data: { attributes: ['lift'] } })
  for (const [template, product, panel, hours] of TO_COME) {
    const { orderId, jointId } = await addJob(world, { ...harbour, bays }, product, 20, hours, panel)
    await addOperations(world.tx, world.scheduler, orderId, { template, jointId }, world.now)
  }
  await publishDemoPlan(world, harbour)
}

async function addWeek({ tx, organizationId }: World, shop: WorldShop): Promise<void> {
  const scope = { organizationId, shopId: shop.id }
  const day = (weekday: number) => [
    { ...scope, weekday, fromMinute: 420, untilMinute: 720 },
    { ...scope, weekday, fromMinute: 750, untilMinute: 990 },
  ]
  const saturday = { ...scope, weekday: 6, fromMinute: 480, untilMinute: 720 }
  await tx.workShift.createMany({ data: [...[1, 2, 3, 4, 5].flatMap(day), saturday] })
  await tx.resource.updateMany({
    where: { shopId: shop.id, kind: 'technician' },
    data: { skills: EVERYTHING },
  })
}

async function addBays(world: World, shop: WorldShop): Promise<WorldShop['bays']> {
  const random = seeded(SEED)
  const bays = [...shop.bays]
  for (const [name, attributes] of [
    ['Bay 4', ['frameBench']],
    ['Bay 5 (clean)', ['dustFree', 'heat']],
  ] as const) {
    const data = {
      organizationId: world.organizationId,
      shopId: shop.id,
      kind: 'bay',
      name,
      attributes: [...attributes],
    }
    const bay = await world.tx.resource.create({ data })
    const sensor = { name: `Air of ${name}`, place: 'bay', resourceId: bay.id, locationId: null }
    await addSensor(world, shop.id, sensor, bayAir(shop.plan, 0.4, random, world.now))
    bays.push(bay)
  }
  return bays
}

/** As the scheduler would: planned, judged by the checker, published. */
async function publishDemoPlan(
  { tx, now, organizationId, scheduler }: World,
  { id: shopId }: WorldShop,
): Promise<void> {
  const versions = await workVersionsOf(tx, shopId)
  const facts = await gatherFacts(tx, shopId, now)
  const { translated, answer: result } = await solveInTurn(facts, async (made) =>
    solve(defineProblem(made.problem), { seed: 1, stop: { iterations: ITERATIONS } }),
  )
  const { values, violations } = check(defineProblem(translated.problem), result.plan)
  const wrong = violations.find(({ rule }) => rule !== 'unplanned')
  if (wrong) throw new Error(`the demo plan breaks a rule: ${wrong.message}`)
  const made = interpret(facts, result.plan)
  const { unplanned, assumptions, problem } = translated
  const { id } = await tx.plan.create({
    data: {
      organizationId,
      shopId,
      state: 'draft',
      ...keptReason(message('plan-reason.plannedAnew')),
      seed: 1,
      iterations: ITERATIONS,
      seconds: 5,
      originAt: new Date(facts.originMs),
      problem,
      planned: plannedJson(result.plan),
      notes: notesJson(assumptions, unplanned),
      summary: summaryOf(made, values, result, priceOf(facts, unplanned)),
      workVersions: onlyOf(versions, made.ends),
      createdAt: now,
      createdBy: scheduler.name,
      finishedAt: now,
    },
  })
  await keepPlan(tx, { planId: id, organizationId, shopId }, made)
  await makePublished(tx, scheduler, id, now)
}
