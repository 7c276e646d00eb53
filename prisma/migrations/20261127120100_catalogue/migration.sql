-- Products, what is scanned for them, and their data sheets; shops' guns, shelves, bays, ovens, clamp sets and instruments.

-- One range for temperatures, as the contract and the packages have it (PLAUSIBLE_TEMPERATURE_C): what is outside cannot be
-- computed with.
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
  constraint product__open_life check (open_life_days >= 0),
  constraint product__temperatures_plausible check (
    storage_min_c between -60 and 300 and storage_max_c between -60 and 300 and label_storage_c between -60 and 300)
);
call keep_tenancy('product', 'select, insert, update');

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

-- A revision is never edited: a bond keeps the one it was made by. It is a claim until somebody else approved it, and counts
-- from the day that it names; what was asked about it and stood by is kept beside its figures.
create table product_sheet (
  id                uuid primary key default gen_random_uuid(),
  organization_id   uuid not null references organization (id),
  product_id        uuid not null,
  revision          text not null,
  -- A revision that was turned down is recorded again, as its next take.
  take              integer not null default 1,
  issued_on         date not null,
  valid_from        date,
  application_min_c double precision not null,
  application_max_c double precision not null,
  lowest_cure_c     double precision not null,
  highest_cure_c    double precision not null,
  service_min_c     double precision not null,
  service_max_c     double precision not null,
  recorded_at       timestamptz(3) not null default now(),
  recorded_by       uuid,
  recorded_by_name  text,
  answered          text[] not null default '{}',
  constraint product_sheet__of_chain unique (organization_id, id),
  constraint product_sheet__revision_once unique (product_id, revision, take),
  constraint product_sheet__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint product_sheet__valid_from check (valid_from is null or valid_from >= issued_on),
  constraint product_sheet__take check (take >= 1),
  constraint product_sheet__temperatures_plausible check (
    application_min_c between -60 and 300 and application_max_c between -60 and 300 and lowest_cure_c between -60 and 300
    and highest_cure_c between -60 and 300 and service_min_c between -60 and 300 and service_max_c between -60 and 300)
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
  constraint product_sheet_point__positive check (work_time_minutes > 0 and handling_time_minutes > 0 and full_cure_minutes > 0),
  constraint product_sheet_point__plausible check (temperature_c between -60 and 300)
);
call keep_tenancy('product_sheet_point', 'select, insert');
create trigger product_sheet__append_only before update or delete on product_sheet
  for each row execute function refuse_change();
create trigger product_sheet_point__append_only before update or delete on product_sheet_point
  for each row execute function refuse_change();

create table product_sheet_decision (
  sheet_id        uuid primary key,
  organization_id uuid not null references organization (id),
  outcome         text not null,
  -- Why it was turned down.
  reason          text not null default '',
  decided_at      timestamptz(3) not null,
  decided_by      uuid,
  decided_by_name text not null,
  -- Nobody else could approve it: the one who recorded it looked again on a later day.
  second_look     boolean not null default false,
  constraint product_sheet_decision__of_sheet unique (organization_id, sheet_id),
  constraint product_sheet_decision__outcome check (outcome in ('approved', 'rejected')),
  constraint product_sheet_decision__reason check (outcome = 'approved' or length(trim(reason)) > 0),
  constraint product_sheet_decision__sheet foreign key (organization_id, sheet_id) references product_sheet (organization_id, id),
  constraint product_sheet_decision__person foreign key (organization_id, decided_by) references person (organization_id, id)
);
call keep_tenancy('product_sheet_decision', 'select, insert');
create trigger product_sheet_decision__append_only before update or delete on product_sheet_decision
  for each row execute function refuse_change();

create function check_sheet_decision() returns trigger
  language plpgsql
as $$
declare
  sheet product_sheet;
begin
  select * into sheet from product_sheet where id = new.sheet_id;
  if new.decided_by is null then
    raise exception 'product_sheet_decision__by_somebody: a person decides on a data sheet' using errcode = '23514', constraint = 'product_sheet_decision__by_somebody';
  end if;
  if new.second_look is distinct from (new.outcome = 'approved' and coalesce(sheet.recorded_by = new.decided_by, false)) then
    raise exception 'product_sheet_decision__second_look: who recorded a data sheet approves it by a second look, anybody else without'
      using errcode = '23514', constraint = 'product_sheet_decision__second_look';
  end if;
  if new.decided_at < sheet.recorded_at then
    raise exception 'product_sheet_decision__after: a data sheet is decided on after it was recorded' using errcode = '23514', constraint = 'product_sheet_decision__after';
  end if;
  return new;
end
$$;
create trigger product_sheet_decision__checked before insert on product_sheet_decision
  for each row execute function check_sheet_decision();

-- That the releases of the last month were looked at again, once, because of a revision that has begun to count.
create table product_sheet_recheck (
  sheet_id        uuid primary key,
  organization_id uuid not null references organization (id),
  rechecked_at    timestamptz(3) not null,
  constraint product_sheet_recheck__of_sheet unique (organization_id, sheet_id),
  -- A revision counts only once it is decided on.
  constraint product_sheet_recheck__decision foreign key (organization_id, sheet_id) references product_sheet_decision (organization_id, sheet_id)
);
call keep_tenancy('product_sheet_recheck', 'select, insert');
create trigger product_sheet_recheck__append_only before update or delete on product_sheet_recheck
  for each row execute function refuse_change();

-- The maker's own document, kept with the revision that was typed from it. A wrong one is followed by the right one.
create table product_sheet_document (
  id               uuid primary key default gen_random_uuid(),
  organization_id  uuid not null references organization (id),
  sheet_id         uuid not null,
  name             text not null,
  pdf              bytea not null,
  sha256           text not null,
  bytes            integer not null,
  recorded_at      timestamptz(3) not null,
  recorded_by_name text not null,
  constraint product_sheet_document__sheet foreign key (organization_id, sheet_id) references product_sheet (organization_id, id),
  constraint product_sheet_document__size check (bytes = octet_length(pdf) and bytes between 1 and 5242880),
  constraint product_sheet_document__hash check (sha256 = encode(sha256(pdf), 'hex')),
  constraint product_sheet_document__pdf check (substring(pdf from 1 for 5) = '\x255044462d'::bytea)
);
create index product_sheet_document__of_sheet on product_sheet_document (sheet_id, recorded_at);
call keep_tenancy('product_sheet_document', 'select, insert');
create trigger product_sheet_document__append_only before update or delete on product_sheet_document
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
  attributes      text[] not null default '{}',
  skills          text[] not null default '{}',
  person_id       uuid,
  active          boolean not null default true,
  version         integer not null default 1,
  constraint resource__of_shop unique (organization_id, shop_id, id),
  constraint resource__name_once unique (shop_id, kind, name),
  constraint resource__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint resource__person foreign key (organization_id, person_id) references person (organization_id, id),
  constraint resource__kind check (kind in ('bay', 'oven', 'clampSet', 'technician')),
  constraint resource__only_clamps_are_counted check (capacity = 1 or (kind = 'clampSet' and capacity > 1)),
  constraint resource__attributes check (
    attributes <@ array['lift', 'frameBench', 'heat', 'dustFree'] and (attributes = '{}' or kind in ('bay', 'oven'))),
  constraint resource__skills check (
    skills <@ array['body', 'structural', 'aluminium', 'welding', 'paint', 'fitting'] and (skills = '{}' or kind = 'technician'))
);
call keep_tenancy('resource', 'select, insert, update');

-- Hand-held instruments; thermometers that hang in a bay are sensors.
create table instrument (
  id               uuid primary key default gen_random_uuid(),
  organization_id  uuid not null references organization (id),
  shop_id          uuid not null,
  kind             text not null,
  name             text not null,
  serial_number    text not null,
  accuracy_c       double precision,
  accuracy_percent double precision,
  calibrated_until date,
  active           boolean not null default true,
  version          integer not null default 1,
  constraint instrument__of_shop unique (organization_id, shop_id, id),
  constraint instrument__name_once unique (shop_id, name),
  constraint instrument__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint instrument__kind check (kind in ('metalProbe', 'infrared', 'hygrometer')),
  -- A thermometer is off by degrees, a hygrometer by percent of relative humidity.
  constraint instrument__accuracy check (
    (kind = 'hygrometer' and accuracy_percent >= 0 and accuracy_c is null) or
    (kind <> 'hygrometer' and accuracy_c >= 0 and accuracy_percent is null))
);
call keep_tenancy('instrument', 'select, insert, update');

-- Who may make which class of joint (rule 8).
-- Never changed, only ended: what somebody held when a bond was made can still be read years later.
create table qualification (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  person_id       uuid not null,
  safety_class    text not null,
  evidence        text not null,
  issued_on       date not null,
  valid_until     date not null,
  recorded_at     timestamptz(3) not null,
  recorded_by     text not null,
  ended_at        timestamptz(3),
  ended_by        text,
  end_reason      text,
  constraint qualification__of_chain unique (organization_id, id),
  constraint qualification__person foreign key (organization_id, person_id) references person (organization_id, id),
  -- S4 asks for none.
  constraint qualification__safety_class check (safety_class in ('S1', 'S2', 'S3')),
  constraint qualification__days_in_order check (issued_on <= valid_until),
  constraint qualification__end_is_whole check (
    (ended_at is null) = (ended_by is null) and (ended_at is null) = (end_reason is null))
);
create index qualification__of_person on qualification (person_id);
call keep_tenancy('qualification', 'select, insert, update (ended_at, ended_by, end_reason)');

create function end_qualification_once() returns trigger
  language plpgsql
as $$
begin
  if tg_op = 'DELETE' or old.ended_at is not null
     or (to_jsonb(old) - '{ended_at,ended_by,end_reason}'::text[]) is distinct from (to_jsonb(new) - '{ended_at,ended_by,end_reason}'::text[]) then
    raise exception 'qualification is append-only but for its end, once' using errcode = 'CC001';
  end if;
  return new;
end
$$;
create trigger qualification__ends_once before update or delete on qualification
  for each row execute function end_qualification_once();
