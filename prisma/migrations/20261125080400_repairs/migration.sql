-- Repair orders, joints, and each attempt at a joint: a bond.
create table repair_order (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  number          text not null,
  vehicle         text not null,
  oven_limit_c    double precision,
  promised_at     timestamptz(3),
  note            text not null default '',
  state           text not null default 'open',
  version         integer not null default 1,
  created_at      timestamptz(3) not null default now(),
  constraint repair_order__of_shop unique (organization_id, shop_id, id),
  constraint repair_order__number_once unique (shop_id, number),
  constraint repair_order__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint repair_order__state check (state in ('open', 'done'))
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

create table bond (
  id                        uuid primary key default gen_random_uuid(),
  organization_id           uuid not null references organization (id),
  shop_id                   uuid not null,
  joint_id                  uuid not null,
  attempt                   integer not null,
  cartridge_id              uuid not null,
  dispenser_id              uuid not null,
  sheet_id                  uuid not null,
  bay_id                    uuid,
  state                     text not null default 'applied',
  amount_ul                 integer not null,
  air_temperature_c         double precision not null,
  relative_humidity_percent double precision not null,
  dew_point_c               double precision not null,
  panel_tau_minutes         double precision,
  -- As it stood when the bond was made; null only where somebody took responsibility for going on without.
  procedure_document        text,
  procedure_revision        text,
  procedure_looked_up_on    date,
  applied_at                timestamptz(3) not null,
  applied_by                text not null,
  clamped_at                timestamptz(3),
  clamped_by                text,
  released_at               timestamptz(3),
  released_by               text,
  abandoned_at              timestamptz(3),
  abandoned_by              text,
  abandon_reason            text,
  constraint bond__of_shop unique (organization_id, shop_id, id),
  constraint bond__attempt_once unique (joint_id, attempt),
  constraint bond__joint foreign key (organization_id, shop_id, joint_id) references joint (organization_id, shop_id, id),
  constraint bond__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint bond__dispenser foreign key (organization_id, dispenser_id) references dispenser (organization_id, id),
  constraint bond__sheet foreign key (organization_id, sheet_id) references product_sheet (organization_id, id),
  constraint bond__bay foreign key (organization_id, shop_id, bay_id) references resource (organization_id, shop_id, id),
  constraint bond__state check (state in ('applied', 'clamped', 'released', 'abandoned')),
  constraint bond__amount check (amount_ul > 0),
  constraint bond__clamped_after_applied check (clamped_at >= applied_at),
  constraint bond__released_after_applied check (released_at >= applied_at and released_at >= coalesce(clamped_at, applied_at)),
  constraint bond__state_has_its_instant check (
    (state <> 'clamped' or clamped_at is not null) and
    -- A joint can be pulled before it was ever clamped; that is an early release.
    (state <> 'released' or released_at is not null) and
    (state <> 'abandoned' or (abandoned_at is not null and abandon_reason is not null)))
);
-- One attempt at a joint runs at a time.
create unique index bond__one_at_a_time on bond (joint_id) where state in ('applied', 'clamped');
create index bond__running on bond (organization_id, shop_id) where state in ('applied', 'clamped');
create index bond__of_cartridge on bond (cartridge_id);
call keep_tenancy('bond', 'select, insert, update');
alter table stock_movement add constraint stock_movement__bond
  foreign key (organization_id, shop_id, bond_id) references bond (organization_id, shop_id, id);

create table panel_reading (
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  bond_id         uuid not null,
  at              timestamptz(3) not null,
  temperature_c   double precision not null,
  accuracy_c      double precision not null,
  source          text not null,
  recorded_by     text not null,
  primary key (bond_id, at),
  constraint panel_reading__bond foreign key (organization_id, shop_id, bond_id) references bond (organization_id, shop_id, id),
  constraint panel_reading__source check (source in ('metalProbe', 'infrared'))
);
call keep_tenancy('panel_reading', 'select, insert');
create trigger panel_reading__append_only before update or delete on panel_reading
  for each row execute function refuse_change();

-- What departed from the rules. The facts are append-only; a disposition is added once.
create table incident (
  id                 uuid primary key default gen_random_uuid(),
  organization_id    uuid not null references organization (id),
  shop_id            uuid not null,
  bond_id            uuid not null,
  kind               text not null,
  at                 timestamptz(3) not null,
  recorded_by        text not null,
  reason             text not null,
  fraction_reached   double precision,
  constraint incident__of_shop unique (organization_id, shop_id, id),
  constraint incident__bond foreign key (organization_id, shop_id, bond_id) references bond (organization_id, shop_id, id),
  constraint incident__kind check (kind in ('earlyRelease', 'clampedAfterWorkTime', 'gateOverridden')),
  constraint incident__early_release_has_a_fraction check (kind <> 'earlyRelease' or fraction_reached is not null)
);
create index incident__of_bond on incident (bond_id);
call keep_tenancy('incident', 'select, insert');
create trigger incident__append_only before update or delete on incident
  for each row execute function refuse_change();

create table disposition (
  incident_id     uuid primary key,
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  kind            text not null,
  at              timestamptz(3) not null default now(),
  recorded_by     text not null,
  reason          text not null,
  constraint disposition__incident foreign key (organization_id, shop_id, incident_id) references incident (organization_id, shop_id, id),
  constraint disposition__kind check (kind in ('inspectedAndAccepted', 'redone')),
  constraint disposition__says_why check (reason <> '')
);
call keep_tenancy('disposition', 'select, insert');
create trigger disposition__append_only before update or delete on disposition
  for each row execute function refuse_change();
