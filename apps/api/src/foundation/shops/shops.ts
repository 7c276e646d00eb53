import type { BodyOf, Shop, shopRoutes } from '@clampclock/contracts'
import { visibleShops, type Actor, type Viewer } from '../permissions/actor.ts'
import type { Tx } from '../database/database.ts'
import type { Shop as ShopRow } from '../../generated/prisma/client.ts'
import { notFound } from '../problems/problem-error.ts'
import { requireVersion } from '../http/versions.ts'
import { announce } from '../live/hub.ts'

export async function listShops(tx: Tx, viewer: Viewer): Promise<Shop[]> {
  const visible = visibleShops(viewer)
  const rows = await tx.shop.findMany({ where: visible ? { id: visible } : {}, orderBy: { name: 'asc' } })
  return rows.map(toShop)
}

export async function shopById(tx: Tx, id: string): Promise<Shop> {
  const row = await tx.shop.findUnique({ where: { id } })
  if (!row) throw notFound('shop', id)
  return toShop(row)
}

export async function addShop(tx: Tx, actor: Actor, body: BodyOf<typeof shopRoutes.addShop>): Promise<Shop> {
  const organizationId = actor.organization.id
  const shop = await tx.shop.create({ data: { ...body, organizationId } })
  await announce(tx, { organizationId, shopId: shop.id, topic: 'shops', subjectId: shop.id })
  return toShop(shop)
}

export async function editShop(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof shopRoutes.editShop>,
  version: number,
): Promise<Shop> {
  const { count } = await tx.shop.updateMany({
    where: { id, version },
    data: {
      ...(body.name === undefined ? {} : { name: body.name }),
      ...(body.timeZone === undefined ? {} : { timeZone: body.timeZone }),
      ...(body.temperatureUnit === undefined ? {} : { temperatureUnit: body.temperatureUnit }),
      version: { increment: 1 },
    },
  })
  const shop = await shopById(tx, id)
  requireVersion(count, shop.version)
  await announce(tx, { organizationId: actor.organization.id, shopId: id, topic: 'shops', subjectId: id })
  return shop
}

function toShop({ id, name, timeZone, temperatureUnit, version }: ShopRow): Shop {
  return { id, name, timeZone, temperatureUnit: temperatureUnit as Shop['temperatureUnit'], version }
}
