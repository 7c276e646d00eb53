-- Moves between shelves and between shops. What is on its way lies on no shelf and counts in no shop; what was looked for
-- and not found is missing until somebody finds it.
alter table cartridge drop constraint cartridge__state;
alter table cartridge add column away_state text, add column away_ul integer;
alter table cartridge
  add constraint cartridge__state check (state in ('sealed', 'opened', 'empty', 'discarded', 'inTransit', 'missing')),
  -- What it was when it left, and what it held: so that it comes back as it went.
  add constraint cartridge__away_is_whole check (
    (state in ('inTransit', 'missing')) = (away_state is not null) and (away_state is null) = (away_ul is null)),
  add constraint cartridge__away_state check (away_state in ('sealed', 'opened')),
  add constraint cartridge__away_lies_nowhere check (away_state is null or (location_id is null and remaining_ul = 0));

create table shipment (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  from_shop_id    uuid not null,
  to_shop_id      uuid not null,
  reason          text not null,
  sent_at         timestamptz(3) not null,
  sent_by         text not null,
  expected_at     timestamptz(3),
  constraint shipment__of_chain unique (organization_id, id),
  constraint shipment__from_shop foreign key (organization_id, from_shop_id) references shop (organization_id, id),
  constraint shipment__to_shop foreign key (organization_id, to_shop_id) references shop (organization_id, id),
  constraint shipment__to_another_shop check (from_shop_id <> to_shop_id),
  constraint shipment__says_why check (reason <> '')
);
create index shipment__by_day on shipment (organization_id, sent_at desc, id);
call keep_tenancy('shipment', 'select, insert');

create table shipment_line (
  organization_id uuid not null references organization (id),
  shipment_id     uuid not null,
  cartridge_id    uuid not null,
  outcome         text,
  settled_at      timestamptz(3),
  settled_by      text,
  primary key (shipment_id, cartridge_id),
  constraint shipment_line__shipment foreign key (organization_id, shipment_id) references shipment (organization_id, id),
  constraint shipment_line__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint shipment_line__outcome check (outcome in ('arrived', 'lost')),
  constraint shipment_line__outcome_is_whole check (
    (outcome is null) = (settled_at is null) and (outcome is null) = (settled_by is null))
);
-- A cartridge is on one way at a time.
create unique index shipment_line__one_way_at_a_time on shipment_line (cartridge_id) where outcome is null;
call keep_tenancy('shipment_line', 'select, insert, update');

alter table stock_movement drop constraint stock_movement__kind;
alter table stock_movement add column location_id uuid, add column shipment_id uuid;
alter table stock_movement
  add constraint stock_movement__kind check (
    kind in ('received', 'opened', 'used', 'emptied', 'discarded', 'corrected', 'sent', 'arrived', 'moved', 'lost')),
  add constraint stock_movement__location foreign key (organization_id, shop_id, location_id)
    references storage_location (organization_id, shop_id, id),
  add constraint stock_movement__shipment foreign key (organization_id, shipment_id) references shipment (organization_id, id),
  add constraint stock_movement__way_has_a_shipment check (kind not in ('sent', 'lost') or shipment_id is not null) not valid,
  -- Neither puts anything on a shelf or takes anything off one's count.
  add constraint stock_movement__changes_nothing check (
    kind not in ('moved', 'lost') or (sealed_change = 0 and opened_change = 0 and volume_change_ul = 0));

-- Found by the first letters of its code.
create index cartridge__by_code_start on cartridge (organization_id, code text_pattern_ops);

-- Where each cartridge lay, and from when to when: its temperatures are those of its shelves, each for its own time.
create table cartridge_stay (
  id              bigint generated always as identity primary key,
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  cartridge_id    uuid not null,
  location_id     uuid not null,
  from_at         timestamptz(3) not null,
  until_at        timestamptz(3),
  constraint cartridge_stay__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint cartridge_stay__location foreign key (organization_id, shop_id, location_id)
    references storage_location (organization_id, shop_id, id),
  constraint cartridge_stay__in_order check (until_at >= from_at)
);
create unique index cartridge_stay__one_shelf_at_a_time on cartridge_stay (cartridge_id) where until_at is null;
create index cartridge_stay__of_cartridge on cartridge_stay (cartridge_id, from_at);
create index cartridge_stay__in_location on cartridge_stay (location_id, until_at);
call keep_tenancy('cartridge_stay', 'select, insert, update');

insert into cartridge_stay (organization_id, shop_id, cartridge_id, location_id, from_at)
select organization_id, shop_id, id, location_id, received_at
  from cartridge where location_id is not null and state in ('sealed', 'opened');

-- Totals, what a cartridge holds, where it lies and where it lay follow from the ledger, whoever writes it.
create or replace function post_stock_movement() returns trigger
  language plpgsql
as $$
declare
  pieces integer := new.sealed_change + new.opened_change;
  comes  boolean := new.kind in ('received', 'moved', 'arrived') or (new.kind = 'corrected' and pieces > 0);
  leaves boolean := new.kind = 'sent' or (new.kind = 'corrected' and pieces < 0);
begin
  if new.sealed_change <> 0 or new.opened_change <> 0 or new.volume_change_ul <> 0 then
    -- Update first: an upsert would check a negative change as if it were a row of its own.
    update stock_on_hand
       set sealed = sealed + new.sealed_change,
           opened = opened + new.opened_change,
           volume_ul = volume_ul + new.volume_change_ul
     where shop_id = new.shop_id and lot_id = new.lot_id;
    if not found then
      insert into stock_on_hand as s (organization_id, shop_id, lot_id, sealed, opened, volume_ul)
      values (new.organization_id, new.shop_id, new.lot_id, new.sealed_change, new.opened_change, new.volume_change_ul)
      on conflict (shop_id, lot_id) do update
        set sealed = s.sealed + excluded.sealed, opened = s.opened + excluded.opened, volume_ul = s.volume_ul + excluded.volume_ul;
    end if;
  end if;

  update cartridge
     set remaining_ul = remaining_ul + new.volume_change_ul,
         shop_id = case when comes then new.shop_id else shop_id end,
         location_id = case when comes then new.location_id when leaves then null else location_id end
   where id = new.cartridge_id;

  if comes or leaves or new.kind in ('discarded', 'emptied') then
    update cartridge_stay set until_at = greatest(new.at, from_at)
     where cartridge_id = new.cartridge_id and until_at is null;
  end if;
  if comes and new.location_id is not null then
    insert into cartridge_stay (organization_id, shop_id, cartridge_id, location_id, from_at)
    values (new.organization_id, new.shop_id, new.cartridge_id, new.location_id, new.at);
  end if;
  return null;
end
$$;
