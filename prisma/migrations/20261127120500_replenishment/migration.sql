-- Who delivers what at which price, what a shop wants kept, the ways between shops, and the orders that are out.
create table supplier (
  id                  uuid primary key default gen_random_uuid(),
  organization_id     uuid not null references organization (id),
  name                text not null,
  email               text not null default '',
  lead_days           double precision not null,
  lead_deviation_days double precision not null,
  -- Of one order, whatever it carries: freight and the time of whoever orders. Whole cents of the chain's currency.
  order_cost_cents    integer not null,
  active              boolean not null default true,
  version             integer not null default 1,
  constraint supplier__of_chain unique (organization_id, id),
  constraint supplier__name_once unique (organization_id, name),
  constraint supplier__lead check (lead_days >= 0 and lead_deviation_days >= 0 and lead_days <= 365 and lead_deviation_days <= 90),
  constraint supplier__order_cost check (order_cost_cents >= 0)
);
call keep_tenancy('supplier', 'select, insert, update');

-- One supplier a product: the one to order from next time.
create table product_supply (
  product_id       uuid primary key,
  organization_id  uuid not null references organization (id),
  supplier_id      uuid not null,
  unit_price_cents integer not null,
  -- Ordered in boxes of so many cartridges.
  box_of           integer not null default 1,
  -- Shelf life that a delivery usually has left.
  fresh_days       integer not null,
  version          integer not null default 1,
  constraint product_supply__of_chain unique (organization_id, product_id),
  constraint product_supply__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint product_supply__supplier foreign key (organization_id, supplier_id) references supplier (organization_id, id),
  constraint product_supply__figures check (unit_price_cents >= 0 and box_of between 1 and 200 and fresh_days between 1 and 3650)
);
call keep_tenancy('product_supply', 'select, insert, update');

-- What the chain wants kept, and what waiting, keeping and packing cost it. One row a chain, there from its first moment.
create table replenishment_policy (
  organization_id   uuid primary key references organization (id),
  currency          text not null default 'USD',
  service_level     double precision not null default 0.95,
  review_days       integer not null default 1,
  waiting_job_cents integer not null default 15000,
  keeping_day_cents integer not null default 2,
  packing_cents     integer not null default 150,
  version           integer not null default 1,
  constraint replenishment_policy__currency check (currency ~ '^[A-Z]{3}$'),
  constraint replenishment_policy__figures check (
    service_level between 0.5 and 0.999 and review_days between 1 and 31
    and waiting_job_cents >= 0 and keeping_day_cents >= 0 and packing_cents >= 0)
);
call keep_tenancy('replenishment_policy', 'select, update');
create function add_replenishment_policy() returns trigger
  language plpgsql
as $$
begin
  insert into replenishment_policy (organization_id) values (new.id);
  return null;
end
$$;
create trigger organization__has_policy after insert on organization
  for each row execute function add_replenishment_policy();

-- A way from one shop to another: a van that goes there. Where there is none, nothing is sent.
create table transfer_lane (
  organization_id uuid not null references organization (id),
  from_shop_id    uuid not null,
  to_shop_id      uuid not null,
  days            integer not null,
  trip_cents      integer not null,
  primary key (from_shop_id, to_shop_id),
  constraint transfer_lane__from foreign key (organization_id, from_shop_id) references shop (organization_id, id),
  constraint transfer_lane__to foreign key (organization_id, to_shop_id) references shop (organization_id, id),
  constraint transfer_lane__elsewhere check (from_shop_id <> to_shop_id),
  constraint transfer_lane__figures check (days between 0 and 60 and trip_cents >= 0)
);
call keep_tenancy('transfer_lane', 'select, insert, update, delete');

-- Levels as they were last computed: looked at every half minute, computed a few times a day.
create table reorder_level (
  organization_id  uuid not null references organization (id),
  shop_id          uuid not null,
  product_id       uuid not null,
  reorder_point_ul integer not null,
  order_up_to_ul   integer not null,
  computed_at      timestamptz(3) not null,
  primary key (shop_id, product_id),
  constraint reorder_level__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint reorder_level__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint reorder_level__in_order check (reorder_point_ul >= 0 and reorder_point_ul <= order_up_to_ul)
);
call keep_tenancy('reorder_level', 'select, insert, update, delete');

create table purchase_order (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  supplier_id     uuid not null,
  -- Counted within its shop.
  number          integer not null,
  state           text not null default 'draft',
  note            text not null default '',
  created_at      timestamptz(3) not null,
  created_by      text not null,
  placed_at       timestamptz(3),
  placed_by       text,
  closed_at       timestamptz(3),
  closed_by       text,
  version         integer not null default 1,
  constraint purchase_order__of_shop unique (organization_id, shop_id, id),
  constraint purchase_order__number_once unique (shop_id, number),
  constraint purchase_order__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint purchase_order__supplier foreign key (organization_id, supplier_id) references supplier (organization_id, id),
  constraint purchase_order__state check (state in ('draft', 'placed', 'received', 'cancelled')),
  constraint purchase_order__placed_is_whole check (
    (placed_at is null) = (placed_by is null) and (state not in ('placed', 'received') or placed_at is not null)),
  constraint purchase_order__closed_is_whole check (
    (closed_at is null) = (closed_by is null) and (closed_at is not null) = (state in ('received', 'cancelled')))
);
create index purchase_order__open on purchase_order (shop_id, placed_at) where state = 'placed';
call keep_tenancy('purchase_order', 'select, insert, update');

create table purchase_order_line (
  order_id            uuid not null,
  organization_id     uuid not null references organization (id),
  shop_id             uuid not null,
  product_id          uuid not null,
  cartridges          integer not null,
  received_cartridges integer not null default 0,
  -- As it was when ordered.
  unit_price_cents    integer not null,
  primary key (order_id, product_id),
  constraint purchase_order_line__order foreign key (organization_id, shop_id, order_id) references purchase_order (organization_id, shop_id, id),
  constraint purchase_order_line__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint purchase_order_line__cartridges check (cartridges between 1 and 5000),
  constraint purchase_order_line__never_more_than_ordered check (received_cartridges between 0 and cartridges)
);
call keep_tenancy('purchase_order_line', 'select, insert, update');
