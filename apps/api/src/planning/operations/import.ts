import { message, type Message } from '@clampclock/messages'
import { param } from '../../foundation/words/params.ts'
import type { BodyOf, operationRoutes, ProblemReason, ResultOf } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { ProblemError } from '../../foundation/problems/problem-error.ts'
import { addJoint, addRepairOrder } from '../../cure/index.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { readImportTable, type ImportedOrder, type NamedOnLine } from './import-table.ts'
import { addOperations } from './operations.ts'
import { listRepairTemplates } from './templates.ts'

/** Opens every repair order of the table, with its joints and operations, or none. */
export async function importRepairOrders(
  tx: Tx,
  actor: Actor,
  shopId: string,
  { csv }: BodyOf<typeof operationRoutes.importRepairOrders>,
  now: Date,
): Promise<ResultOf<typeof operationRoutes.importRepairOrders>> {
  const { timeZone } = await shopById(tx, shopId)
  const { orders, names, faults } = readImportTable(csv, timeZone)
  const products = new Map((await tx.product.findMany()).map(({ id, name }) => [name, id]))
  requireNone([...faults, ...(await unknownNames(tx, shopId, names, products))])

  const made: { id: string; number: string; jointCount: number }[] = []
  for (const { joints, templates, line: _, ...order } of orders) {
    const { id } = await addRepairOrder(tx, actor, shopId, order, now)
    const jointIds = new Map<string, string>([])
    for (const { line: __, product, ...figures } of joints) {
      const joint = await addJoint(
        tx,
        actor,
        id,
        { ...pick(figures), productId: products.get(product)!, procedure: null },
        now,
      )
      jointIds.set(joint.name, joint.id)
    }
    for (const { joint, key, line } of templates) {
      const body = { template: key, jointId: jointIds.get(joint) ?? null }
      await onLine(line, () => addOperations(tx, actor, id, body, now))
    }
    made.push({ id, number: order.number, jointCount: joints.length })
  }
  return { repairOrders: made }
}

type Figures = Omit<ImportedOrder['joints'][number], 'line' | 'product'>

function pick({
  name,
  panelMaterial,
  panelThicknessMm,
  safetyClass,
  lengthMm,
  flangeWidthMm,
  beadDiameterMm,
}: Figures) {
  return { name, panelMaterial, panelThicknessMm, safetyClass, lengthMm, flangeWidthMm, beadDiameterMm }
}

/** What only the database knows: numbers taken, products and templates that there are not. */
async function unknownNames(
  tx: Tx,
  shopId: string,
  names: readonly NamedOnLine[],
  products: ReadonlyMap<string, string>,
): Promise<ProblemReason[]> {
  const fault = (line: number, what: Message): ProblemReason => ({
    code: 'csv',
    field: 'body.csv',
    message: message('problem.line', { line, what: { message: what } }),
  })
  const firstLines = new Map(names.toReversed().map(({ number, line }) => [number, line]))
  const taken = await tx.repairOrder.findMany({ where: { shopId, number: { in: [...firstLines.keys()] } } })
  const templates = await listRepairTemplates(tx, shopId)
  const keys = new Set(templates.filter(({ isSetAside }) => !isSetAside).map(({ key }) => key))
  return [
    ...taken.map(({ number }) =>
      fault(firstLines.get(number)!, message('plan-problem.numberTaken', { number })),
    ),
    ...names.flatMap(({ line, product, template }) => [
      ...(product === '' || products.has(product)
        ? []
        : [fault(line, message('plan-problem.unknownProduct', { product }))]),
      ...(template === '' || keys.has(template)
        ? []
        : [
            fault(
              line,
              message('plan-problem.unknownTemplate', { template, keys: { list: [...keys], join: 'plain' } }),
            ),
          ]),
    ]),
  ]
}

/** What is refused of one line, told as a fault of that line; the orders before it are taken back with it. */
async function onLine(line: number, add: () => Promise<unknown>): Promise<void> {
  try {
    await add()
  } catch (error) {
    if (!(error instanceof ProblemError) || error.code !== 'invalid-request') throw error
    requireNone(
      error.reasons.map((reason) => ({
        ...reason,
        code: 'csv',
        field: 'body.csv',
        message: message('reason.ofLine', { line, what: param(reason.message) }),
      })),
    )
  }
}

function requireNone(faults: readonly ProblemReason[]): void {
  const [first] = faults
  if (!first) return
  const detail =
    faults.length > 1
      ? message('reason.andMore', { what: param(first.message), more: faults.length - 1 })
      : first.message
  throw new ProblemError('invalid-request', detail, faults)
}
