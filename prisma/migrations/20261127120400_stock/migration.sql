-- Lots, cartridges, and the ledger that says what is on hand. Volumes are whole microlitres, so that sums are exact.

create table lot (
  id               uuid primary key default gen_random_uuid(),
  organization_id  uuid not null references organization (id),
  product_id       uuid not null,
  lot_number       text not null,
  printed_expiry   date not null,
  expiry_precision text not null,
  -- Why it is held, and how it was disposed of. A lot that is scrapped stays on hold for good: what is still on its way, or
  -- turns up behind a cabinet, is not used either.
  hold_kind        text,
  hold_reason      text,
  hold_since       timestamptz(3),
  hold_by          text,
  created_at       timestamptz(3) not null default now(),
  constraint lot__of_chain unique (organization_id, id),
  constraint lot__number_once unique (product_id, lot_number),
  constraint lot__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint lot__expiry_precision check (expiry_precision in ('day', 'month')),
  constraint lot__hold_kind check (hold_kind in ('person', 'excursion', 'scrapped')),
  constraint lot__hold_is_whole check (
    (hold_reason is null) = (hold_since is null) and (hold_reason is null) = (hold_by is null)
    and (hold_reason is null) = (hold_kind is null))
);
create index lot__by_expiry on lot (organization_id, printed_expiry);
call keep_tenancy('lot', 'select, insert, update');

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
  constraint lot_hold_event__kind check (kind in ('held', 'ended', 'scrapped')),
  constraint lot_hold_event__says_why check (reason <> '')
);
create index lot_hold_event__of_lot on lot_hold_event (lot_id, at);
call keep_tenancy('lot_hold_event', 'select, insert');
create trigger lot_hold_event__append_only before update or delete on lot_hold_event
  for each row execute function refuse_change();

-- What came in with which delivery.
create table receipt (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  lot_id          uuid not null,
  cartridges      integer not null,
  delivery_note   text,
  gtin            text,
  -- Of cartons or cartridges whose labels carry one: the same serial number of a GTIN cannot come twice.
  serials         text[] not null default '{}',
  at              timestamptz(3) not null,
  recorded_by     text not null,
  constraint receipt__of_chain unique (organization_id, id),
  constraint receipt__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint receipt__lot foreign key (organization_id, lot_id) references lot (organization_id, id),
  constraint receipt__cartridges check (cartridges between 1 and 500),
  constraint receipt__serials_have_a_gtin check (serials = '{}' or gtin is not null)
);
create index receipt__of_lot on receipt (lot_id, shop_id, at);
create index receipt__by_serial on receipt using gin (serials);
call keep_tenancy('receipt', 'select, insert');
create trigger receipt__append_only before update or delete on receipt
  for each row execute function refuse_change();

create table cartridge (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  lot_id          uuid not null,
  location_id     uuid,
  -- Which delivery it came with.
  receipt_id      uuid,
  code            text not null,
  state           text not null default 'sealed',
  remaining_ul    integer not null default 0,
  -- What it was when it left, and what it held: so that it comes back as it went.
  away_state      text,
  away_ul         integer,
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
  constraint cartridge__state check (state in ('sealed', 'opened', 'empty', 'discarded', 'inTransit', 'missing')),
  constraint cartridge__expiry_limit check (expiry_limit in ('printedExpiry', 'openLife', 'warmStorage')),
  constraint cartridge__never_negative check (remaining_ul >= 0),
  constraint cartridge__opened_has_a_date check (state <> 'opened' or opened_at is not null),
  constraint cartridge__receipt foreign key (organization_id, receipt_id) references receipt (organization_id, id),
  -- What is on its way lies on no shelf and counts in no shop; what was looked for and not found is missing until found.
  constraint cartridge__away_is_whole check (
    (state in ('inTransit', 'missing')) = (away_state is not null) and (away_state is null) = (away_ul is null)),
  constraint cartridge__away_state check (away_state in ('sealed', 'opened')),
  constraint cartridge__away_lies_nowhere check (away_state is null or (location_id is null and remaining_ul = 0))
);
create index cartridge__by_expiry on cartridge (organization_id, expires_at, id) where state in ('sealed', 'opened');
create index cartridge__of_shop_by_expiry on cartridge (shop_id, expires_at, id) where state in ('sealed', 'opened');
create index cartridge__in_location on cartridge (location_id) where state in ('sealed', 'opened');
create index cartridge__of_lot on cartridge (lot_id);
create index cartridge__of_receipt on cartridge (receipt_id) where receipt_id is not null;
-- Found by the first letters of its code.
create index cartridge__by_code_start on cartridge (organization_id, code text_pattern_ops);
call keep_tenancy('cartridge', 'select, insert, update');

-- A cartridge that lay outside its product's storage range, from the reading that said so until somebody entitled decides.
-- The lot's hold ends for the lot; this one ends for the cartridge that was there.
create table cartridge_quarantine (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  cartridge_id    uuid not null,
  since           timestamptz(3) not null,
  recorded_at     timestamptz(3) not null,
  reason          text not null,
  decision        text,
  decided_at      timestamptz(3),
  decided_by      text,
  decision_reason text,
  constraint cartridge_quarantine__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint cartridge_quarantine__says_why check (reason <> ''),
  constraint cartridge_quarantine__decision check (decision in ('use', 'discard')),
  constraint cartridge_quarantine__decided_whole check (
    num_nonnulls(decision, decided_at, decided_by, decision_reason) in (0, 4) and decision_reason <> '')
);
create unique index cartridge_quarantine__one_at_a_time on cartridge_quarantine (cartridge_id) where decided_at is null;
create index cartridge_quarantine__of_cartridge on cartridge_quarantine (cartridge_id, since);
call keep_tenancy('cartridge_quarantine', 'select, insert, update');

-- Decided once, and nothing of it is changed after.
create trigger cartridge_quarantine__decided_once before update on cartridge_quarantine
  for each row when (
    old.decided_at is not null or new.decided_at is null
    or (new.id, new.organization_id, new.cartridge_id, new.since, new.recorded_at, new.reason)
       is distinct from (old.id, old.organization_id, old.cartridge_id, old.since, old.recorded_at, old.reason))
  execute function refuse_change();
create trigger cartridge_quarantine__never_removed before delete on cartridge_quarantine
  for each row execute function refuse_change();

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

-- Moves between shops.
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

-- The ledger. Rows are added, never changed or removed; what is on hand is their sum.
create table stock_movement (
  id              bigint generated always as identity primary key,
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  lot_id          uuid not null,
  cartridge_id    uuid not null,
  location_id     uuid,
  shipment_id     uuid,
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
  constraint stock_movement__kind check (kind in ('received', 'opened', 'used', 'emptied', 'discarded', 'corrected', 'sent', 'arrived', 'moved', 'lost')),
  constraint stock_movement__says_why check (reason <> ''),
  constraint stock_movement__one_cartridge check (sealed_change between -1 and 1 and opened_change between -1 and 1),
  constraint stock_movement__location foreign key (organization_id, shop_id, location_id)
    references storage_location (organization_id, shop_id, id),
  constraint stock_movement__shipment foreign key (organization_id, shipment_id) references shipment (organization_id, id),
  constraint stock_movement__way_has_a_shipment check (kind not in ('sent', 'lost') or shipment_id is not null),
  -- Neither puts anything on a shelf or takes anything off one's count.
  constraint stock_movement__changes_nothing check (
    kind not in ('moved', 'lost') or (sealed_change = 0 and opened_change = 0 and volume_change_ul = 0))
);
create index stock_movement__of_cartridge on stock_movement (cartridge_id, id);
create index stock_movement__of_shop on stock_movement (organization_id, shop_id, id);
create index stock_movement__of_lot on stock_movement (lot_id, id);
-- What was used, by product and day, is asked for each time levels are computed.
create index stock_movement__used on stock_movement (organization_id, shop_id, at) include (lot_id, volume_change_ul) where kind = 'used';
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

-- Totals, what a cartridge holds, where it lies and where it lay follow from the ledger, whoever writes it.
create function post_stock_movement() returns trigger
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
create trigger stock_movement__post after insert on stock_movement
  for each row execute function post_stock_movement();
create trigger stock_movement__append_only before update or delete on stock_movement
  for each row execute function refuse_change();
create trigger stock_movement__no_truncate before truncate on stock_movement
  for each statement execute function refuse_change();

-- Blind counts by shelf: what was seen, by whom, and what of it the record did not expect.
create table stock_count (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  -- Null: what lies at no place that is known.
  location_id     uuid,
  started_at      timestamptz(3) not null,
  started_by      text not null,
  finished_at     timestamptz(3),
  finished_by     text,
  constraint stock_count__of_chain unique (organization_id, id),
  constraint stock_count__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint stock_count__location foreign key (organization_id, shop_id, location_id)
    references storage_location (organization_id, shop_id, id),
  constraint stock_count__finish_is_whole check ((finished_at is null) = (finished_by is null))
);
-- Two people at one shelf count together.
create unique index stock_count__one_at_a_shelf on stock_count (shop_id, location_id) nulls not distinct where finished_at is null;
create index stock_count__by_day on stock_count (organization_id, started_at desc, id);
call keep_tenancy('stock_count', 'select, insert, update');

create table stock_count_entry (
  organization_id uuid not null references organization (id),
  count_id        uuid not null,
  cartridge_id    uuid not null,
  counted_at      timestamptz(3) not null,
  counted_by      text not null,
  primary key (count_id, cartridge_id),
  constraint stock_count_entry__count foreign key (organization_id, count_id) references stock_count (organization_id, id),
  constraint stock_count_entry__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id)
);
call keep_tenancy('stock_count_entry', 'select, insert, delete');

create table stock_count_difference (
  organization_id uuid not null references organization (id),
  count_id        uuid not null,
  cartridge_id    uuid not null,
  kind            text not null,
  settled_at      timestamptz(3),
  settled_by      text,
  settlement      text,
  primary key (count_id, cartridge_id),
  constraint stock_count_difference__count foreign key (organization_id, count_id) references stock_count (organization_id, id),
  constraint stock_count_difference__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint stock_count_difference__kind check (kind in ('notFound', 'otherShelf', 'otherShop', 'inTransit', 'missing', 'gone')),
  constraint stock_count_difference__settlement check (settlement in ('booked', 'changedSince', 'nothingToBook')),
  constraint stock_count_difference__settlement_is_whole check (
    (settled_at is null) = (settled_by is null) and (settled_at is null) = (settlement is null))
);
create index stock_count_difference__open on stock_count_difference (organization_id, count_id) where settled_at is null;
call keep_tenancy('stock_count_difference', 'select, insert, update');

-- Which cartridge is kept for which joint, on the day that it is used.
create table reservation (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  joint_id        uuid not null,
  cartridge_id    uuid not null,
  amount_ul       integer not null,
  needed_at       timestamptz(3) not null,
  made_at         timestamptz(3) not null,
  made_by         text not null,
  ended_at        timestamptz(3),
  end_kind        text,
  end_reason      text,
  constraint reservation__joint foreign key (organization_id, shop_id, joint_id) references joint (organization_id, shop_id, id),
  constraint reservation__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint reservation__amount check (amount_ul > 0),
  constraint reservation__end_kind check (end_kind in ('used', 'released', 'died')),
  constraint reservation__end_is_whole check (
    (ended_at is null) = (end_kind is null) and (ended_at is null) = (end_reason is null))
);
create unique index reservation__once_for_a_joint on reservation (joint_id, cartridge_id) where ended_at is null;
create index reservation__open_of_cartridge on reservation (cartridge_id) where ended_at is null;
create index reservation__open_of_shop on reservation (organization_id, shop_id, needed_at) where ended_at is null;
create index reservation__of_joint on reservation (joint_id, ended_at);
call keep_tenancy('reservation', 'select, insert, update');

-- A cartridge is never promised beyond what it holds: whoever promises locks it first, so two cannot both see room.
create function keep_reserved() returns trigger
  language plpgsql
as $$
declare
  held     integer;
  promised bigint;
begin
  select remaining_ul into held from cartridge
   where id = new.cartridge_id and shop_id = new.shop_id and state in ('sealed', 'opened') for no key update;
  select coalesce(sum(amount_ul), 0) into promised from reservation
   where cartridge_id = new.cartridge_id and ended_at is null and id <> new.id;
  if held is null or promised + new.amount_ul > held then
    raise exception 'reservation__within_content: the cartridge does not hold that much for one more'
      using errcode = '23514', constraint = 'reservation__within_content';
  end if;
  return new;
end
$$;
create trigger reservation__keep_reserved before insert on reservation
  for each row execute function keep_reserved();
