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
