-- Lots, cartridges, and the ledger that says what is on hand. Volumes are whole microlitres, so that sums are exact.
create table lot (
  id               uuid primary key default gen_random_uuid(),
  organization_id  uuid not null references organization (id),
  product_id       uuid not null,
  lot_number       text not null,
  printed_expiry   date not null,
  expiry_precision text not null,
  hold_reason      text,
  hold_since       timestamptz(3),
  hold_by          text,
  created_at       timestamptz(3) not null default now(),
  constraint lot__of_chain unique (organization_id, id),
  constraint lot__number_once unique (product_id, lot_number),
  constraint lot__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint lot__expiry_precision check (expiry_precision in ('day', 'month')),
  constraint lot__hold_is_whole check ((hold_reason is null) = (hold_since is null) and (hold_reason is null) = (hold_by is null))
);
create index lot__by_expiry on lot (organization_id, printed_expiry);
call keep_tenancy('lot', 'select, insert, update');

create table cartridge (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  lot_id          uuid not null,
  location_id     uuid,
  code            text not null,
  state           text not null default 'sealed',
  remaining_ul    integer not null default 0,
  received_at     timestamptz(3) not null,
  opened_at       timestamptz(3),
  -- What warm storage took off its life, ms, counted up to the last reading that was taken in.
  warm_loss_ms      double precision not null default 0,
  warm_loss_through timestamptz(3) not null,
  -- Follows from the columns above and the product (packages/stock); kept here so that lists can be sorted by it.
  expires_at      timestamptz(3) not null,
  expiry_limit    text not null,
  constraint cartridge__of_chain unique (organization_id, id),
  constraint cartridge__code_once unique (organization_id, code),
  constraint cartridge__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint cartridge__lot foreign key (organization_id, lot_id) references lot (organization_id, id),
  constraint cartridge__location foreign key (organization_id, shop_id, location_id) references storage_location (organization_id, shop_id, id),
  constraint cartridge__state check (state in ('sealed', 'opened', 'empty', 'discarded')),
  constraint cartridge__expiry_limit check (expiry_limit in ('printedExpiry', 'openLife', 'warmStorage')),
  constraint cartridge__never_negative check (remaining_ul >= 0),
  constraint cartridge__opened_has_a_date check (state <> 'opened' or opened_at is not null)
);
create index cartridge__by_expiry on cartridge (organization_id, expires_at, id) where state in ('sealed', 'opened');
create index cartridge__of_shop_by_expiry on cartridge (shop_id, expires_at, id) where state in ('sealed', 'opened');
create index cartridge__in_location on cartridge (location_id) where state in ('sealed', 'opened');
create index cartridge__of_lot on cartridge (lot_id);
call keep_tenancy('cartridge', 'select, insert, update');

-- The ledger. Rows are added, never changed or removed; what is on hand is their sum.
create table stock_movement (
  id              bigint generated always as identity primary key,
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  lot_id          uuid not null,
  cartridge_id    uuid not null,
  kind            text not null,
  sealed_change   integer not null,
  opened_change   integer not null,
  volume_change_ul integer not null,
  at              timestamptz(3) not null,
  recorded_at     timestamptz(3) not null default now(),
  recorded_by     text not null,
  actor_id        uuid not null,
  reason          text not null,
  bond_id         uuid,
  constraint stock_movement__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint stock_movement__lot foreign key (organization_id, lot_id) references lot (organization_id, id),
  constraint stock_movement__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint stock_movement__kind check (kind in ('received', 'opened', 'used', 'emptied', 'discarded', 'corrected', 'sent', 'arrived')),
  constraint stock_movement__says_why check (reason <> ''),
  constraint stock_movement__one_cartridge check (sealed_change between -1 and 1 and opened_change between -1 and 1)
);
create index stock_movement__of_cartridge on stock_movement (cartridge_id, id);
create index stock_movement__of_shop on stock_movement (organization_id, shop_id, id);
create index stock_movement__of_lot on stock_movement (lot_id, id);
call keep_tenancy('stock_movement', 'select, insert');

-- Kept by the ledger's trigger, so it cannot drift from a forgotten writer; `npm run ledger:verify` compares.
create table stock_on_hand (
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  lot_id          uuid not null,
  sealed          integer not null,
  opened          integer not null,
  volume_ul       bigint not null,
  primary key (shop_id, lot_id),
  constraint stock_on_hand__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint stock_on_hand__lot foreign key (organization_id, lot_id) references lot (organization_id, id),
  constraint stock_on_hand__never_negative check (sealed >= 0 and opened >= 0 and volume_ul >= 0)
);
create index stock_on_hand__of_lot on stock_on_hand (lot_id);
call keep_tenancy('stock_on_hand', 'select, insert, update');

create function post_stock_movement() returns trigger
  language plpgsql
as $$
begin
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

  update cartridge
     set remaining_ul = remaining_ul + new.volume_change_ul,
         shop_id = case when new.kind = 'arrived' then new.shop_id else shop_id end
   where id = new.cartridge_id;
  return null;
end
$$;
create trigger stock_movement__post after insert on stock_movement
  for each row execute function post_stock_movement();
create trigger stock_movement__append_only before update or delete on stock_movement
  for each row execute function refuse_change();
create trigger stock_movement__no_truncate before truncate on stock_movement
  for each statement execute function refuse_change();

-- Holds and their ends, with who and why: the lot's own columns only say how it stands now.
create table lot_hold_event (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  lot_id          uuid not null,
  kind            text not null,
  at              timestamptz(3) not null,
  recorded_by     text not null,
  reason          text not null,
  constraint lot_hold_event__lot foreign key (organization_id, lot_id) references lot (organization_id, id),
  constraint lot_hold_event__kind check (kind in ('held', 'ended')),
  constraint lot_hold_event__says_why check (reason <> '')
);
create index lot_hold_event__of_lot on lot_hold_event (lot_id, at);
call keep_tenancy('lot_hold_event', 'select, insert');
create trigger lot_hold_event__append_only before update or delete on lot_hold_event
  for each row execute function refuse_change();
