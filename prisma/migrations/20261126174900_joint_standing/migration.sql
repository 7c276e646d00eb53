-- What a joint's standing is computed from: everything that happened to it, and who answered for what departed from the
-- rules.

alter table incident drop constraint incident__kind;
alter table incident add constraint incident__kind check (
  kind in ('earlyRelease', 'clampedAfterWorkTime', 'gateOverridden', 'appliedAgainstRefusal', 'leftWithAdhesive'));

-- When it was told, beside when it is said to have happened: what is told late makes nothing ready sooner.
alter table bond add column applied_recorded_at timestamptz(3), add column clamped_recorded_at timestamptz(3);
update bond set applied_recorded_at = applied_at, clamped_recorded_at = clamped_at;
alter table bond alter column applied_recorded_at set not null;
alter table bond alter column applied_recorded_at set default now();
alter table bond add constraint bond__told_once_it_happened check (
  applied_recorded_at >= applied_at and clamped_recorded_at >= clamped_at);
-- How an attempt ended that was given up: panels lifted apart, or left for another reason.
alter table bond add column was_lifted boolean not null default false;
alter table bond add constraint bond__lifted_is_abandoned check (not was_lifted or state = 'abandoned');

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

alter table disposition add column inspection_id uuid, add column recorded_by_id uuid;
alter table disposition add constraint disposition__inspection
  foreign key (incident_id, inspection_id) references inspection (incident_id, id);
-- What was accepted before inspections were kept stays as it is.
alter table disposition add constraint disposition__accepted_after_an_inspection check (
  kind <> 'inspectedAndAccepted' or inspection_id is not null) not valid;

alter table bond_record_entry drop constraint bond_record_entry__kind;
alter table bond_record_entry add constraint bond_record_entry__kind check (
  kind in ('applied', 'reading', 'clamped', 'released', 'abandoned', 'incident', 'inspection', 'disposition'));
