-- Repair orders and their joints.

create table repair_order (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  number          text not null,
  vehicle         text not null,
  -- What tells one car from another, beside what people call it: hashed with the first entry of a bond's record.
  vin             text,
  plate           text,
  oven_limit_c    double precision,
  promised_at     timestamptz(3),
  note            text not null default '',
  state           text not null default 'open',
  priority        text not null default 'normal',
  version         integer not null default 1,
  -- A plan has the operations of a vehicle as they were. Counted, not timed: what is changed while the planner reads is told
  -- as changed.
  work_version    integer not null default 1,
  created_at      timestamptz(3) not null default now(),
  constraint repair_order__of_shop unique (organization_id, shop_id, id),
  constraint repair_order__number_once unique (shop_id, number),
  constraint repair_order__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint repair_order__state check (state in ('open', 'done')),
  constraint repair_order__priority check (priority in ('low', 'normal', 'high', 'rush')),
  constraint repair_order__oven_limit check (oven_limit_c between -60 and 300),
  -- ISO 3779: up to 17 characters, none of I, O and Q. Older vehicles have shorter ones.
  constraint repair_order__vin check (vin ~ '^[A-HJ-NPR-Z0-9]{5,17}$'),
  constraint repair_order__plate check (plate <> '' and length(plate) <= 20)
);
create index repair_order__open on repair_order (organization_id, shop_id, state);
call keep_tenancy('repair_order', 'select, insert, update');

create table joint (
  id                     uuid primary key default gen_random_uuid(),
  organization_id        uuid not null references organization (id),
  shop_id                uuid not null,
  repair_order_id        uuid not null,
  name                   text not null,
  panel_material         text not null,
  panel_thickness_mm     double precision not null,
  safety_class           text not null,
  product_id             uuid not null,
  length_mm              double precision not null,
  flange_width_mm        double precision not null,
  bead_diameter_mm       double precision not null,
  procedure_document     text,
  procedure_revision     text,
  procedure_looked_up_on date,
  created_at             timestamptz(3) not null default now(),
  constraint joint__of_shop unique (organization_id, shop_id, id),
  constraint joint__name_once unique (repair_order_id, name),
  constraint joint__repair_order foreign key (organization_id, shop_id, repair_order_id) references repair_order (organization_id, shop_id, id),
  constraint joint__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint joint__safety_class check (safety_class in ('S1', 'S2', 'S3', 'S4')),
  constraint joint__procedure_is_whole check (
    (procedure_document is null) = (procedure_revision is null) and (procedure_document is null) = (procedure_looked_up_on is null))
);
create index joint__of_repair_order on joint (repair_order_id);
call keep_tenancy('joint', 'select, insert, update');
