-- Products and their data sheets; shops' guns, shelves, bays, ovens, clamp sets and people.
create table product (
  id                uuid primary key default gen_random_uuid(),
  organization_id   uuid not null references organization (id),
  name              text not null,
  chemistry         text not null,
  mix_ratio         text not null,
  cartridge_form    text not null,
  cartridge_ul      integer not null,
  open_life_days    integer not null,
  storage_min_c     double precision not null,
  storage_max_c     double precision not null,
  label_storage_c   double precision not null,
  storage_q10       double precision not null default 2,
  nozzle_hold_up_ul integer not null,
  glass_bead_mm     double precision not null,
  tolerates_primer  boolean not null,
  retired_at        timestamptz(3),
  created_at        timestamptz(3) not null default now(),
  constraint product__of_chain unique (organization_id, id),
  constraint product__name_once unique (organization_id, name),
  constraint product__chemistry check (chemistry in ('acrylic', 'epoxy', 'polyurethane')),
  constraint product__holds_something check (cartridge_ul > 0 and nozzle_hold_up_ul >= 0),
  constraint product__storage_range check (storage_min_c < storage_max_c),
  constraint product__storage_q10 check (storage_q10 between 1 and 5),
  constraint product__open_life check (open_life_days >= 0)
);
call keep_tenancy('product', 'select, insert, update');

-- A revision is never edited: a bond keeps the one it was made by.
create table product_sheet (
  id                uuid primary key default gen_random_uuid(),
  organization_id   uuid not null references organization (id),
  product_id        uuid not null,
  revision          text not null,
  issued_on         date not null,
  application_min_c double precision not null,
  application_max_c double precision not null,
  lowest_cure_c     double precision not null,
  highest_cure_c    double precision not null,
  service_min_c     double precision not null,
  service_max_c     double precision not null,
  recorded_at       timestamptz(3) not null default now(),
  recorded_by       uuid,
  constraint product_sheet__of_chain unique (organization_id, id),
  constraint product_sheet__revision_once unique (product_id, revision),
  constraint product_sheet__product foreign key (organization_id, product_id) references product (organization_id, id)
);
call keep_tenancy('product_sheet', 'select, insert');

create table product_sheet_point (
  organization_id       uuid not null references organization (id),
  sheet_id              uuid not null,
  temperature_c         double precision not null,
  work_time_minutes     double precision not null,
  handling_time_minutes double precision not null,
  full_cure_minutes     double precision not null,
  primary key (sheet_id, temperature_c),
  constraint product_sheet_point__sheet foreign key (organization_id, sheet_id) references product_sheet (organization_id, id),
  constraint product_sheet_point__positive check (work_time_minutes > 0 and handling_time_minutes > 0 and full_cure_minutes > 0)
);
call keep_tenancy('product_sheet_point', 'select, insert');
create trigger product_sheet__append_only before update or delete on product_sheet
  for each row execute function refuse_change();
create trigger product_sheet_point__append_only before update or delete on product_sheet_point
  for each row execute function refuse_change();

create table dispenser (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  name            text not null,
  cartridge_forms text[] not null,
  active          boolean not null default true,
  constraint dispenser__of_chain unique (organization_id, id),
  constraint dispenser__name_once unique (shop_id, name),
  constraint dispenser__shop foreign key (organization_id, shop_id) references shop (organization_id, id)
);
call keep_tenancy('dispenser', 'select, insert, update');

create table storage_location (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  name            text not null,
  active          boolean not null default true,
  constraint storage_location__of_shop unique (organization_id, shop_id, id),
  constraint storage_location__name_once unique (shop_id, name),
  constraint storage_location__shop foreign key (organization_id, shop_id) references shop (organization_id, id)
);
call keep_tenancy('storage_location', 'select, insert, update');

-- Bays, ovens, clamp sets and technicians: what can be booked.
create table resource (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  kind            text not null,
  name            text not null,
  capacity        integer not null default 1,
  person_id       uuid,
  active          boolean not null default true,
  version         integer not null default 1,
  constraint resource__of_shop unique (organization_id, shop_id, id),
  constraint resource__name_once unique (shop_id, kind, name),
  constraint resource__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint resource__person foreign key (organization_id, person_id) references person (organization_id, id),
  constraint resource__kind check (kind in ('bay', 'oven', 'clampSet', 'technician')),
  constraint resource__only_clamps_are_counted check (capacity = 1 or (kind = 'clampSet' and capacity > 1))
);
call keep_tenancy('resource', 'select, insert, update');
