-- Which product a scanned number stands for, and what came in with which delivery.

-- A carton has a number of its own: `cartridges` says how many come with one scan of it.
create table product_gtin (
  organization_id uuid not null references organization (id),
  gtin            text not null,
  product_id      uuid not null,
  cartridges      integer not null default 1,
  recorded_at     timestamptz(3) not null,
  recorded_by     text not null,
  primary key (organization_id, gtin),
  constraint product_gtin__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint product_gtin__fourteen_digits check (gtin ~ '^[0-9]{14}$'),
  constraint product_gtin__cartridges check (cartridges between 1 and 500)
);
create index product_gtin__of_product on product_gtin (product_id);
call keep_tenancy('product_gtin', 'select, insert, delete');

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

-- Which delivery a cartridge came with; those of before this was kept say nothing.
alter table cartridge add column receipt_id uuid;
alter table cartridge add constraint cartridge__receipt
  foreign key (organization_id, receipt_id) references receipt (organization_id, id);
create index cartridge__of_receipt on cartridge (receipt_id) where receipt_id is not null;
