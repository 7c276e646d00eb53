import type { overviewRoutes, ResultOf, ShopOverview } from '@clampclock/contracts'
import { SOON_DAYS } from '@clampclock/stock'
import { visibleShops, type Viewer } from '../../foundation/permissions/actor.ts'
import { selectAlerts, toAlert, type AlertRow } from '../alerts/alerts.ts'
import { watched } from '../watch/watch-state.ts'
import { keptEstimateOf, lookForCauses, moveCheckOf, runningBonds } from '../../cure/index.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { listShops } from '../../foundation/shops/shops.ts'

const ALERTS_SHOWN = 8

/** Every shop that the actor may see, with what needs a person there. */
export async function overview(
  tx: Tx,
  viewer: Viewer,
  now: Date,
): Promise<ResultOf<typeof overviewRoutes.getOverview>> {
  const shops = await listShops(tx, viewer)
  const visible = visibleShops(viewer)
  const stock = await stockCounts(tx, now)
  const bays = await bayCounts(tx, now)
  const running = await runningBonds(tx, visible)
  await lookForCauses(tx, running, now)
  const incidents = await openIncidents(tx, visible)
  const openAlerts = await alertsByShop(tx, visible)

  const overviews: ShopOverview[] = []
  for (const shop of shops) {
    const curing = running.filter((bond) => bond.shopId === shop.id)
    let mayBeMoved = 0
    for (const bond of curing) {
      const check = moveCheckOf(bond, await keptEstimateOf(tx, bond, shop.timeZone, now), shop.timeZone)
      if (check.mayMove) mayBeMoved += 1
    }
    const alerts = openAlerts.get(shop.id) ?? []
    const open = incidents.get(shop.id)
    overviews.push({
      shop,
      stock: stock.get(shop.id) ?? NO_STOCK,
      bays: bays.get(shop.id) ?? { total: 0, occupied: 0 },
      bonds: {
        curing: curing.length,
        mayBeMoved,
        openIncidents: open?.all ?? 0,
        movedEarly: open?.movedEarly ?? 0,
        plannedTooEarly: alerts.filter(({ kind }) => kind === 'plannedMoveBeforeReady').length,
      },
      alerts: alerts.slice(0, ALERTS_SHOWN).map(toAlert),
      openAlerts: alerts.length,
    })
  }
  return { asOf: now, watched: await watched(tx, viewer.organization.id), shops: overviews }
}

type VisibleShops = ReturnType<typeof visibleShops>

function inShops(column: Prisma.Sql, shops: VisibleShops): Prisma.Sql {
  return shops ? Prisma.sql`${column} = any (${shops.in}::uuid[])` : Prisma.sql`true`
}

/** Shown are a few, and how many there are: no shop has so many that more would say more. */
const MOST_ALERTS = 1000

async function alertsByShop(tx: Tx, shops: VisibleShops): Promise<Map<string, AlertRow[]>> {
  const byShop = new Map<string, AlertRow[]>()
  const open = Prisma.sql`closed_at is null and ${inShops(Prisma.sql`shop_id`, shops)}`
  for (const alert of await selectAlerts(tx, open, 50 * MOST_ALERTS)) {
    const own = byShop.get(alert.shop_id) ?? []
    if (own.length < MOST_ALERTS) own.push(alert)
    byShop.set(alert.shop_id, own)
  }
  return byShop
}

/** Incidents that nobody has disposed of yet. */
async function openIncidents(
  tx: Tx,
  shops: VisibleShops,
): Promise<Map<string, { all: number; movedEarly: number }>> {
  const rows = await tx.$queryRaw<{ shop_id: string; all: bigint; moved_early: bigint }[]>`
    select i.shop_id, count(*) as all, count(*) filter (where i.kind = 'earlyRelease') as moved_early
      from incident i
     where ${inShops(Prisma.sql`i.shop_id`, shops)}
       and i.kind <> 'gateOverridden' and not exists (select from disposition d where d.incident_id = i.id)
     group by i.shop_id`
  return new Map(
    rows.map((row) => [row.shop_id, { all: Number(row.all), movedEarly: Number(row.moved_early) }]),
  )
}

type StockCounts = ShopOverview['stock']

const NO_STOCK: StockCounts = {
  sealed: 0,
  opened: 0,
  expired: 0,
  openedPastOpenLife: 0,
  expiresSoon: 0,
  onHold: 0,
  noDispenserFits: 0,
}

async function stockCounts(tx: Tx, now: Date): Promise<Map<string, StockCounts>> {
  const soon = new Date(now.getTime() + SOON_DAYS * 86_400_000)
  const rows = await tx.$queryRaw<(Record<keyof StockCounts, bigint> & { shop_id: string })[]>`
    select c.shop_id,
           count(*) filter (where c.state = 'sealed') as "sealed",
           count(*) filter (where c.state = 'opened') as "opened",
           count(*) filter (where c.expires_at <= ${now}::timestamptz) as "expired",
           count(*) filter (where c.expiry_limit = 'openLife' and c.expires_at <= ${now}::timestamptz) as "openedPastOpenLife",
           count(*) filter (where c.expires_at > ${now}::timestamptz and c.expires_at <= ${soon}::timestamptz) as "expiresSoon",
           count(*) filter (where l.hold_reason is not null) as "onHold",
           count(*) filter (where not exists (select from dispenser d where d.shop_id = c.shop_id and d.active
                                                and p.cartridge_form = any (d.cartridge_forms))) as "noDispenserFits"
      from cartridge c join lot l on l.id = c.lot_id join product p on p.id = l.product_id
     where c.state in ('sealed', 'opened')
     group by c.shop_id`
  return new Map(
    rows.map(({ shop_id, ...counts }) => [
      shop_id,
      Object.fromEntries(
        Object.entries(counts).map(([name, count]) => [name, Number(count)]),
      ) as unknown as StockCounts,
    ]),
  )
}

async function bayCounts(tx: Tx, now: Date): Promise<Map<string, ShopOverview['bays']>> {
  const rows = await tx.$queryRaw<{ shop_id: string; total: bigint; occupied: bigint }[]>`
    select r.shop_id, count(*) as total,
           count(*) filter (where exists (select from booking b where b.resource_id = r.id and b.cancelled_at is null
                                            and b.starts_at <= ${now}::timestamptz and b.ends_at > ${now}::timestamptz)) as occupied
      from resource r where r.kind = 'bay' and r.active group by r.shop_id`
  return new Map(
    rows.map((row) => [row.shop_id, { total: Number(row.total), occupied: Number(row.occupied) }]),
  )
}
