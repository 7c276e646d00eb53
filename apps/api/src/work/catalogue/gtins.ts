import { message } from '@clampclock/messages'
import type { ProductGtin, BodyOf, receivingRoutes } from '@clampclock/contracts'
import { gtin14 } from '@clampclock/stock'
import { shopsWith, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'

export async function listGtins(tx: Tx, productId: string): Promise<ProductGtin[]> {
  await requireProduct(tx, productId)
  return tx.productGtin.findMany({ where: { productId }, orderBy: { gtin: 'asc' } })
}

export async function addGtin(
  tx: Tx,
  actor: Actor,
  productId: string,
  body: BodyOf<typeof receivingRoutes.addProductGtin>,
  now: Date,
): Promise<ProductGtin> {
  await requireProduct(tx, productId)
  return store(tx, actor, { ...body, gtin: checked(body.gtin, 'body.gtin'), productId }, now)
}

export async function removeGtin(tx: Tx, actor: Actor, productId: string, gtin: string): Promise<void> {
  const { count } = await tx.productGtin.deleteMany({ where: { gtin, productId } })
  if (count === 0) throw notFound('GTIN of this product', gtin)
  await tell(tx, actor, productId)
}

/**
 * A GTIN that came with a delivery: one that is on file must stand for the same product. A new one is remembered for
 * every shop, so only where somebody of the chain receives.
 *
 * @returns Whether it is on file now.
 */
export async function learnGtin(
  tx: Tx,
  actor: Actor,
  scanned: { gtin: string; productId: string; cartridgesPerScan: number },
  now: Date,
): Promise<boolean> {
  const gtin = checked(scanned.gtin, 'body.gtin')
  const known = await tx.productGtin.findFirst({ where: { gtin }, include: { product: true } })
  if (!known) {
    if (shopsWith(actor, 'manageCatalogue') !== 'all') return false
    await store(tx, actor, { gtin, productId: scanned.productId, cartridges: scanned.cartridgesPerScan }, now)
    return true
  }
  if (known.productId !== scanned.productId)
    throw invalidField(
      'body.productId',
      message('setup-problem.gtinOfOther', { product: known.product.name }),
      message('setup-problem.gtinOfOtherFix', { product: known.product.name }),
    )
  return true
}

async function store(
  tx: Tx,
  actor: Actor,
  { gtin, productId, cartridges }: { gtin: string; productId: string; cartridges: number },
  now: Date,
): Promise<ProductGtin> {
  const row = await tx.productGtin.create({
    data: {
      organizationId: actor.organization.id,
      gtin,
      productId,
      cartridges,
      recordedAt: now,
      recordedBy: actor.name,
    },
  })
  await tell(tx, actor, productId)
  return row
}

function checked(digits: string, field: string): string {
  const gtin = gtin14(digits)
  if (!gtin)
    throw invalidField(
      field,
      message('setup-problem.checkDigit', { digits }),
      message('setup-problem.typeAgainFix'),
    )
  return gtin
}

async function requireProduct(tx: Tx, id: string): Promise<void> {
  if (!(await tx.product.findUnique({ where: { id }, select: { id: true } }))) throw notFound('product', id)
}

async function tell(tx: Tx, actor: Actor, productId: string): Promise<void> {
  const organizationId = actor.organization.id
  await announce(tx, { organizationId, shopId: null, topic: 'products', subjectId: productId })
}
