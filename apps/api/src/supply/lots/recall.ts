import { message, say, type Message, type Reader, type Told } from '@clampclock/messages'
import type { LotRecall } from '@clampclock/contracts'
import { lotUse } from '@clampclock/stock'
import { shopsWith, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Answered } from '../../foundation/http/bind.ts'
import { headings, toCsv } from '../../foundation/http/csv.ts'
import { requireLot, toLot } from './lots.ts'
import { toMl } from '../../foundation/database/volumes.ts'

interface CartridgeRow {
  cartridge_id: string
  code: string
  shop_id: string
  shop_name: string
  state: LotRecall['cartridges'][number]['state']
  location_name: string | null
  held_ul: number
  expires_at: Date
  quarantine_reason: Told | null
}

interface JointRow {
  bond_id: string
  shop_id: string
  shop_name: string
  repair_order_id: string
  number: string
  vehicle: string
  joint_name: string
  safety_class: string
  bond_state: LotRecall['joints'][number]['bondState']
  used_ul: bigint
  applied_at: Date
  applied_by: string
  codes: string[]
}

/** Which joints a lot went into follows from the ledger: a joint may have taken from several cartridges. */
export async function recallOf(tx: Tx, actor: Actor, lotId: string, now: Date): Promise<LotRecall> {
  const lot = toLot(await requireLot(tx, lotId), actor)
  const cartridges = await tx.$queryRaw<CartridgeRow[]>`
    select c.id as cartridge_id, c.code, c.shop_id, s.name as shop_name, c.state, place.name as location_name,
           c.remaining_ul + coalesce(c.away_ul, 0) as held_ul, c.expires_at, coalesce(q.said, to_jsonb(q.reason)) as quarantine_reason
      from cartridge c join shop s on s.id = c.shop_id left join storage_location place on place.id = c.location_id
      left join cartridge_quarantine q on q.cartridge_id = c.id and q.decided_at is null
     where c.lot_id = ${lotId}::uuid
     order by c.state in ('sealed', 'opened') desc, s.name, c.code`
  const joints = await tx.$queryRaw<JointRow[]>`
    select b.id as bond_id, b.shop_id, s.name as shop_name, j.repair_order_id, r.number, r.vehicle, j.name as joint_name,
           j.safety_class, b.state as bond_state, sum(-m.volume_change_ul) as used_ul, b.applied_at, b.applied_by,
           array_agg(distinct c.code order by c.code) as codes
      from stock_movement m
      join bond b on b.id = m.bond_id
      join joint j on j.id = b.joint_id
      join repair_order r on r.id = j.repair_order_id
      join shop s on s.id = b.shop_id
      join cartridge c on c.id = m.cartridge_id
     where m.lot_id = ${lotId}::uuid and m.kind = 'used'
     group by b.id, s.name, j.repair_order_id, r.number, r.vehicle, j.name, j.safety_class
     order by b.applied_at desc, b.id`
  const mine = shopsWith(actor, 'readShop')
  const isSeen = ({ shop_id: id }: { shop_id: string }) => mine === 'all' || mine.has(id)
  const concerned = new Set([...cartridges, ...joints].map(({ shop_id: id }) => id))
  return {
    lot,
    mayBeUsed: lotUse(
      cartridges.map((row) => ({
        state: row.state,
        effectiveExpiryMs: row.expires_at.getTime(),
        quarantineReason: row.quarantine_reason,
      })),
      lot.hold?.reason ?? null,
      now.getTime(),
    ),
    cartridges: cartridges.filter(isSeen).map((row) => ({
      cartridgeId: row.cartridge_id,
      code: row.code,
      shopId: row.shop_id,
      shopName: row.shop_name,
      state: row.state,
      isExpired: row.expires_at <= now,
      isQuarantined: row.quarantine_reason !== null,
      locationName: row.location_name,
      remainingMl: toMl(row.held_ul),
    })),
    joints: joints.filter(isSeen).map((row) => ({
      bondId: row.bond_id,
      shopId: row.shop_id,
      shopName: row.shop_name,
      repairOrderId: row.repair_order_id,
      repairOrderNumber: row.number,
      vehicle: row.vehicle,
      jointName: row.joint_name,
      safetyClass: row.safety_class,
      bondState: row.bond_state,
      amountMl: toMl(row.used_ul),
      appliedAt: row.applied_at,
      appliedBy: row.applied_by,
      codes: row.codes,
    })),
    people: await peopleToTell(tx, [...concerned], joints.filter(isSeen), isSeen),
    hiddenShops: [...concerned].filter((id) => !isSeen({ shop_id: id })).length,
  }
}

/** Owners wherever they are; parts managers of the shops that the reader sees, and whoever bonded with it there. */
async function peopleToTell(
  tx: Tx,
  shopIds: readonly string[],
  joints: readonly JointRow[],
  isSeen: (of: { shop_id: string }) => boolean,
): Promise<LotRecall['people']> {
  const people = await tx.person.findMany({
    where: { disabledAt: null },
    include: { memberships: { include: { shop: { select: { name: true } } } } },
    orderBy: { name: 'asc' },
  })
  return people.flatMap(({ name, email, memberships }) => {
    const handles = memberships
      .filter(({ shopId }) => shopId === null || shopIds.includes(shopId))
      .map(({ role, shopId, shop }) => ({
        role,
        shop,
        isSeen: shopId === null || isSeen({ shop_id: shopId }),
      }))
      .filter((each) => each.role === 'owner' || (each.role === 'partsManager' && each.isSeen))
    const made = joints.filter(({ applied_by: by }) => by === name).length
    const why = [
      ...handles.map(({ role, shop, isSeen: isNamed }) => handling(role, isNamed ? shop?.name : undefined)),
      ...(made > 0 ? [message('recall.made', { joints: made })] : []),
    ]
    return why.length > 0 ? [{ name, email, why }] : []
  })
}

function handling(role: string, shop: string | undefined): Message {
  if (role === 'owner') return shop ? message('recall.ownerIn', { shop }) : message('recall.owner')
  return shop ? message('recall.partsManagerIn', { shop }) : message('recall.partsManager')
}

const COLUMNS = [
  'what',
  'product',
  'lot',
  'shop',
  'cartridge',
  'state',
  'expired',
  'quarantined',
  'place',
  'millilitres',
  'repairOrder',
  'vehicle',
  'joint',
  'safetyClass',
  'appliedAt',
  'appliedBy',
] as const

/** In the reader's words; figures stay plain, so that a spreadsheet reads them. */
export function recallCsv(reader: Reader, { lot, cartridges, joints }: LotRecall): Answered {
  const shared = { product: lot.productName, lot: lot.lotNumber }
  const yesOrNo = (is: boolean) => say(reader, 'csv.yes', { is: is ? 'yes' : 'no' })
  const rows = [
    ...cartridges.map((each) => ({
      ...shared,
      what: say(reader, 'csv.what', { what: 'cartridge' }),
      shop: each.shopName,
      cartridge: each.code,
      state: say(reader, 'csv.state', { state: each.state }),
      expired: yesOrNo(each.isExpired),
      quarantined: yesOrNo(each.isQuarantined),
      place: each.locationName ?? '',
      millilitres: each.remainingMl,
    })),
    ...joints.map((each) => ({
      ...shared,
      what: say(reader, 'csv.what', { what: 'joint' }),
      shop: each.shopName,
      cartridge: each.codes.join(' '),
      state: say(reader, 'csv.state', { state: each.bondState }),
      millilitres: each.amountMl,
      repairOrder: each.repairOrderNumber,
      vehicle: each.vehicle,
      joint: each.jointName,
      safetyClass: each.safetyClass,
      appliedAt: each.appliedAt,
      appliedBy: each.appliedBy,
    })),
  ]
  return {
    name: `recall-${lot.lotNumber.replaceAll(/[^A-Za-z0-9-]/g, '_')}.csv`,
    render: async () => toCsv<Record<string, unknown>>(rows, headings(reader, COLUMNS)),
  }
}
