import pg from 'pg'

export interface Filled {
  readonly organizationId: string
  readonly shopIds: readonly string[]
  readonly productIds: readonly string[]
  readonly lotIds: readonly string[]
}

const ON_HAND = 100
const PRODUCTS = 8
/** Received, opened, twice used, emptied. */
const MOVEMENTS_EACH = 5

/**
 * A chain with so many shops and so many movements in its ledger, by plain SQL with the triggers off: what they would have
 * kept is written beside it. 20 cartridges a lot; two days in three hold a job for each shop and product.
 */
export async function fillStock(url: string, shops: number, movements: number): Promise<Filled> {
  const client = new pg.Client({ connectionString: url, options: '-c TimeZone=UTC' })
  await client.connect()
  const ids = async (sql: string) => (await client.query<{ id: string }>(sql)).rows.map(({ id }) => id)
  try {
    const past = Math.max(0, Math.round((movements - shops * ON_HAND) / MOVEMENTS_EACH))
    const [organizationId = ''] = await ids(`insert into organization (name) values ('Bench') returning id`)
    await client.query(`set session_replication_role = replica`)
    const shopIds = await ids(
      `insert into shop (organization_id, name, time_zone)
       select '${organizationId}', 'Shop ' || n, 'America/Denver' from generate_series(1, ${shops}) n returning id`,
    )
    const productIds = await ids(
      `insert into product (organization_id, name, chemistry, mix_ratio, cartridge_form, cartridge_ul, open_life_days,
                            storage_min_c, storage_max_c, label_storage_c, nozzle_hold_up_ul, glass_bead_mm, tolerates_primer)
       select '${organizationId}', 'Product ' || n, 'acrylic', '10:1', 'form', 200000, 30, 5, 30, 23, 8000, 0.25, false
         from generate_series(1, ${PRODUCTS}) n returning id`,
    )
    await client.query(
      `insert into dispenser (organization_id, shop_id, name, cartridge_forms)
       select organization_id, id, 'Gun', array['form'] from shop`,
    )
    const lots = Math.ceil((past + shops * ON_HAND) / 20)
    await client.query(`
      create temporary table numbered_shop as select id, row_number() over (order by name) - 1 as n from shop;
      create temporary table numbered_product as select id, row_number() over (order by name) - 1 as n from product;
      insert into lot (organization_id, product_id, lot_number, printed_expiry, expiry_precision)
        select '${organizationId}', p.id, 'L' || g, current_date + (g % 400)::int - 10, 'day'
          from generate_series(1, ${lots}) g join numbered_product p on p.n = g % ${PRODUCTS};
      create temporary table numbered_lot as select id, printed_expiry, row_number() over (order by lot_number) - 1 as n from lot;
      create unique index on numbered_lot (n);
      create temporary table piece as
        select gen_random_uuid() as id, s.id as shop_id, l.id as lot_id, l.printed_expiry, g as n, g <= ${past} as is_past
          from generate_series(1, ${past + shops * ON_HAND}) g
          join numbered_shop s on s.n = g % ${shops}
          join numbered_lot l on l.n = (g * 7) % ${lots};
      insert into cartridge (id, organization_id, shop_id, lot_id, code, state, remaining_ul, received_at, opened_at, warm_loss_through, expires_at, expiry_limit)
        select id, '${organizationId}', shop_id, lot_id, 'C' || n, case when is_past then 'empty' else 'sealed' end,
               case when is_past then 0 else 200000 end, now() - interval '400 days', case when is_past then now() - interval '200 days' end,
               now(), printed_expiry + 1, 'printedExpiry' from piece;
      insert into stock_movement (organization_id, shop_id, lot_id, cartridge_id, kind, sealed_change, opened_change, volume_change_ul, at, recorded_by, actor_id, reason)
        select '${organizationId}', shop_id, lot_id, id, k.kind, k.sealed, k.opened, k.ul,
               now() - interval '400 days' + (n % 390) * interval '1 day' + k.days * interval '1 day', 'Bench', id, 'Bench'
          from piece join (values ('received', 1, 0, 200000, 0), ('opened', -1, 1, 0, 1), ('used', 0, 0, -80000, 2),
                                  ('used', 0, 0, -120000, 4), ('emptied', 0, -1, 0, 4)) k (kind, sealed, opened, ul, days)
            on is_past or k.kind = 'received';
      insert into stock_on_hand (organization_id, shop_id, lot_id, sealed, opened, volume_ul)
        select '${organizationId}', shop_id, lot_id, sum(sealed_change), sum(opened_change), sum(volume_change_ul)
          from stock_movement group by shop_id, lot_id;
    `)
    await client.query(`analyze`)
    const lotIds = await ids(`select id from lot limit 500`)
    return { organizationId, shopIds, productIds, lotIds }
  } finally {
    await client.end()
  }
}
