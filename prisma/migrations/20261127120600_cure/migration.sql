-- Each attempt at a joint (a bond), what was read and what departed from the rules, and the record of it all.

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
  hygrometer_id             uuid,
  -- Which thermometer read the air at the joint. Only the one that reads the metal is held against the bay's by it. Null: a
  -- hygrometer of the register, where one is named, was taken to have read it.
  air_read_with             text,
  state                     text not null default 'applied',
  amount_ul                 integer not null,
  -- What the joint needed when the adhesive went on, and why less went on, in the words of who applied it. Both are of then:
  -- the joint may be edited later.
  amount_needed_ul          integer,
  short_amount_reason       text,
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
  -- When it was told, beside when it is said to have happened: what is told late makes nothing ready sooner.
  applied_recorded_at       timestamptz(3) not null default now(),
  clamped_at                timestamptz(3),
  clamped_by                text,
  clamped_recorded_at       timestamptz(3),
  released_at               timestamptz(3),
  released_by               text,
  abandoned_at              timestamptz(3),
  abandoned_by              text,
  abandon_reason            text,
  -- Given up with its panels lifted apart, not for another reason.
  was_lifted                boolean not null default false,
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
    (state <> 'abandoned' or (abandoned_at is not null and abandon_reason is not null))),
  constraint bond__hygrometer foreign key (organization_id, shop_id, hygrometer_id) references instrument (organization_id, shop_id, id),
  constraint bond__told_once_it_happened check (
    applied_recorded_at >= applied_at and clamped_recorded_at >= clamped_at),
  constraint bond__lifted_is_abandoned check (not was_lifted or state = 'abandoned'),
  constraint bond__air_plausible check (air_temperature_c between -40 and 60),
  constraint bond__air_read_with check (air_read_with in ('panelThermometer', 'hygrometer', 'another')),
  constraint bond__air_read_with_its_hygrometer check (air_read_with <> 'hygrometer' or hygrometer_id is not null),
  constraint bond__amount_needed check (amount_needed_ul > 0),
  constraint bond__short_amount_says_why check (short_amount_reason <> ''),
  -- Whole mL, rounded up, as people write and read them: the rest of a millilitre is no shortage.
  constraint bond__short_amount check (
    (short_amount_reason is not null)
    = (amount_needed_ul is not null and (amount_ul + 999) / 1000 < (amount_needed_ul + 999) / 1000))
);
-- One attempt at a joint runs at a time.
create unique index bond__one_at_a_time on bond (joint_id) where state in ('applied', 'clamped');
create index bond__running on bond (organization_id, shop_id) where state in ('applied', 'clamped');
create index bond__of_cartridge on bond (cartridge_id);
call keep_tenancy('bond', 'select, insert, update');
alter table stock_movement add constraint stock_movement__bond
  foreign key (organization_id, shop_id, bond_id) references bond (organization_id, shop_id, id);

-- A reading is a claim: what makes it doubtful, when it was entered, and who took it back or replaced it. The value itself
-- never changes: a correction is a row of its own, and the one it replaces stays.
create table panel_reading (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  bond_id         uuid not null,
  at              timestamptz(3) not null,
  temperature_c   double precision not null,
  accuracy_c      double precision not null,
  source          text not null,
  instrument_id   uuid,
  -- As it stood when it was used: a calibration of next year says nothing about a reading of today.
  calibrated_until date,
  recorded_by     text not null,
  recorded_by_id  uuid,
  recorded_at     timestamptz(3),
  quality         text not null default 'good',
  findings        jsonb not null default '[]',
  replaces_id     uuid,
  decided_at      timestamptz(3),
  decided_by      text,
  decision_reason text,
  constraint panel_reading__bond foreign key (organization_id, shop_id, bond_id) references bond (organization_id, shop_id, id),
  constraint panel_reading__source check (source in ('metalProbe', 'infrared')),
  constraint panel_reading__instrument foreign key (organization_id, shop_id, instrument_id) references instrument (organization_id, shop_id, id),
  constraint panel_reading__plausible check (temperature_c between -60 and 300),
  constraint panel_reading__accuracy check (accuracy_c between 0 and 20),
  constraint panel_reading__of_bond unique (bond_id, id),
  constraint panel_reading__replaces foreign key (bond_id, replaces_id) references panel_reading (bond_id, id),
  constraint panel_reading__quality check (quality in ('good', 'suspect', 'withdrawn', 'replaced')),
  constraint panel_reading__findings check (jsonb_typeof(findings) = 'array'),
  constraint panel_reading__suspect_says_why check (quality <> 'suspect' or findings <> '[]'),
  constraint panel_reading__decision_is_whole check (
    (quality in ('withdrawn', 'replaced')) = (decided_at is not null)
    and (decided_at is null) = (decided_by is null) and (decided_at is null) = (decision_reason is null))
);
-- What counts: one for an instant.
create unique index panel_reading__one_at_an_instant on panel_reading (bond_id, at) where quality in ('good', 'suspect');
create index panel_reading__of_bond_by_time on panel_reading (bond_id, at);
call keep_tenancy('panel_reading', 'select, insert, update (quality, findings, decided_at, decided_by, decision_reason)');

create function keep_panel_reading() returns trigger
  language plpgsql
as $$
begin
  if tg_op = 'DELETE' or old.quality in ('withdrawn', 'replaced')
     or (to_jsonb(old) - '{quality,findings,decided_at,decided_by,decision_reason}'::text[])
        is distinct from (to_jsonb(new) - '{quality,findings,decided_at,decided_by,decision_reason}'::text[]) then
    raise exception 'panel_reading is append-only but for its quality: add a correcting row instead' using errcode = 'CC001';
  end if;
  return new;
end
$$;
create trigger panel_reading__append_only before update or delete on panel_reading
  for each row execute function keep_panel_reading();

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
  constraint incident__kind check (kind in ('earlyRelease', 'clampedAfterWorkTime', 'gateOverridden', 'appliedAgainstRefusal', 'leftWithAdhesive')),
  constraint incident__early_release_has_a_fraction check (kind <> 'earlyRelease' or fraction_reached is not null)
);
create index incident__of_bond on incident (bond_id);
call keep_tenancy('incident', 'select, insert');
create trigger incident__append_only before update or delete on incident
  for each row execute function refuse_change();

-- Somebody looked at the joint: who, how, with what result. One that asks for a second person waits for a disposition.
create table inspection (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  incident_id     uuid not null,
  inspector_id    uuid not null,
  inspector_name  text not null,
  method          text not null,
  result          text not null,
  photo           bytea,
  photo_type      text,
  photo_sha256    text,
  at              timestamptz(3) not null,
  recorded_by     text not null,
  recorded_by_id  uuid not null,
  constraint inspection__of_shop unique (organization_id, shop_id, id),
  constraint inspection__of_incident unique (incident_id, id),
  constraint inspection__incident foreign key (organization_id, shop_id, incident_id) references incident (organization_id, shop_id, id),
  constraint inspection__inspector foreign key (organization_id, inspector_id) references person (organization_id, id),
  constraint inspection__says_how_and_what check (method <> '' and result <> ''),
  constraint inspection__photo_is_whole check (
    (photo is null) = (photo_type is null) and (photo is null) = (photo_sha256 is null)),
  constraint inspection__photo_type check (photo_type in ('image/jpeg', 'image/png')),
  constraint inspection__photo_size check (octet_length(photo) <= 1048576)
);
create index inspection__of_one_incident on inspection (incident_id, at);
call keep_tenancy('inspection', 'select, insert');
create trigger inspection__append_only before update or delete on inspection
  for each row execute function refuse_change();

create table disposition (
  incident_id     uuid primary key,
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  kind            text not null,
  at              timestamptz(3) not null default now(),
  recorded_by     text not null,
  reason          text not null,
  recorded_by_id  uuid,
  inspection_id   uuid,
  constraint disposition__incident foreign key (organization_id, shop_id, incident_id) references incident (organization_id, shop_id, id),
  constraint disposition__kind check (kind in ('inspectedAndAccepted', 'redone')),
  constraint disposition__says_why check (reason <> ''),
  constraint disposition__inspection foreign key (incident_id, inspection_id) references inspection (incident_id, id),
  constraint disposition__accepted_after_an_inspection check (kind <> 'inspectedAndAccepted' or inspection_id is not null)
);
call keep_tenancy('disposition', 'select, insert');
create trigger disposition__append_only before update or delete on disposition
  for each row execute function refuse_change();

-- Everything that happened to a bond, as it was known then, chained by hash: a changed entry no longer fits its hash, a
-- removed or inserted one no longer fits its neighbours.
create table bond_record_entry (
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  sequence        bigint not null,
  bond_id         uuid not null,
  kind            text not null,
  at              timestamptz(3) not null,
  recorded_at     timestamptz(3) not null,
  -- Canonical JSON, as text: what is hashed are these bytes.
  payload         text not null,
  previous_hash   text not null,
  hash            text not null,
  primary key (shop_id, sequence),
  constraint bond_record_entry__bond foreign key (organization_id, shop_id, bond_id) references bond (organization_id, shop_id, id),
  -- One chain for each shop, that cannot fork.
  constraint bond_record_entry__no_fork unique (shop_id, previous_hash),
  constraint bond_record_entry__sequence check (sequence >= 1),
  constraint bond_record_entry__hashes check (hash ~ '^[0-9a-f]{64}$' and previous_hash ~ '^[0-9a-f]{64}$'),
  -- Which kinds of entries there are is said in the contract. The database only asks for a name: a record must take a new
  -- kind of event without its table being rebuilt, and an entry of a kind that a program doesn't know is still chained.
  constraint bond_record_entry__kind check (kind ~ '^[a-z][a-zA-Z]{2,39}$')
);
create index bond_record_entry__of_bond on bond_record_entry (bond_id, sequence);
call keep_tenancy('bond_record_entry', 'select, insert');
create trigger bond_record_entry__append_only before update or delete on bond_record_entry
  for each row execute function refuse_change();
create trigger bond_record_entry__no_truncate before truncate on bond_record_entry
  for each statement execute function refuse_change();
