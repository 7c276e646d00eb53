import type { Database } from '../../foundation/database/database.ts'

export interface LedgerFault {
  readonly what: string
  readonly id: string
  readonly kept: string
  readonly fromLedger: string
}

/**
 * Rebuilds all totals from the movements and compares them with what is kept: on hand by shop and lot, what each
 * cartridge holds, whether its state is the one its movements lead to, where it lies, and what is on its way. Reads as the owner, over every chain.
 */
export async function verifyLedger({ prisma }: Database): Promise<LedgerFault[]> {
  return prisma.$queryRaw<LedgerFault[]>`
    with totals as (
      select shop_id, lot_id, sum(sealed_change)::bigint as sealed, sum(opened_change)::bigint as opened, sum(volume_change_ul)::bigint as volume
        from stock_movement group by shop_id, lot_id
    ), pieces as (
      select cartridge_id, sum(sealed_change) as sealed, sum(opened_change) as opened, sum(volume_change_ul) as volume
        from stock_movement group by cartridge_id
    )
    select 'on hand' as what, coalesce(h.lot_id, t.lot_id)::text as id,
           format('%s sealed, %s opened, %s uL', h.sealed, h.opened, h.volume_ul) as kept,
           format('%s sealed, %s opened, %s uL', t.sealed, t.opened, t.volume) as "fromLedger"
      from stock_on_hand h full join totals t on t.shop_id = h.shop_id and t.lot_id = h.lot_id
     where h.sealed is distinct from t.sealed or h.opened is distinct from t.opened or h.volume_ul is distinct from t.volume
    union all
    select 'cartridge', c.id::text, format('%s, %s uL', c.state, c.remaining_ul),
           format('%s sealed, %s opened, %s uL', p.sealed, p.opened, p.volume)
      from cartridge c left join pieces p on p.cartridge_id = c.id
     where c.remaining_ul is distinct from p.volume
        or (c.state = 'sealed') is distinct from (p.sealed = 1)
        or (c.state = 'opened') is distinct from (p.opened = 1)
    union all
    select 'shelf', c.id::text, format('%s at %s', c.state, c.location_id), format('stays at %s', s.location_id)
      from cartridge c left join cartridge_stay s on s.cartridge_id = c.id and s.until_at is null
     where s.location_id is distinct from (case when c.state in ('sealed', 'opened') then c.location_id end)
    union all
    select 'in transit', c.id::text, c.state, format('%s open shipments', count(w.shipment_id))
      from cartridge c left join shipment_line w on w.cartridge_id = c.id and w.outcome is null
     where c.state = 'inTransit' or w.shipment_id is not null
     group by c.id, c.state having (c.state = 'inTransit') is distinct from (count(w.shipment_id) = 1)`
}
