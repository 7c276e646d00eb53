-- A reading is a claim: what makes it doubtful, when it was entered, and who took it back or replaced it. The value itself
-- never changes: a correction is a row of its own, and the one it replaces stays.

alter table panel_reading
  add column id              uuid not null default gen_random_uuid(),
  add column recorded_at     timestamptz(3),
  add column recorded_by_id  uuid,
  add column quality         text not null default 'good',
  add column findings        jsonb not null default '[]',
  add column replaces_id     uuid,
  add column decided_at      timestamptz(3),
  add column decided_by      text,
  add column decision_reason text;
alter table panel_reading drop constraint panel_reading_pkey;
alter table panel_reading
  add constraint panel_reading_pkey primary key (id),
  add constraint panel_reading__of_bond unique (bond_id, id),
  add constraint panel_reading__replaces foreign key (bond_id, replaces_id) references panel_reading (bond_id, id),
  add constraint panel_reading__quality check (quality in ('good', 'suspect', 'withdrawn', 'replaced')),
  add constraint panel_reading__findings check (jsonb_typeof(findings) = 'array'),
  add constraint panel_reading__suspect_says_why check (quality <> 'suspect' or findings <> '[]'),
  add constraint panel_reading__decision_is_whole check (
    (quality in ('withdrawn', 'replaced')) = (decided_at is not null)
    and (decided_at is null) = (decided_by is null) and (decided_at is null) = (decision_reason is null));
-- What counts: one for an instant.
create unique index panel_reading__one_at_an_instant on panel_reading (bond_id, at) where quality in ('good', 'suspect');
create index panel_reading__of_bond_by_time on panel_reading (bond_id, at);

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
drop trigger panel_reading__append_only on panel_reading;
create trigger panel_reading__append_only before update or delete on panel_reading
  for each row execute function keep_panel_reading();
grant update (quality, findings, decided_at, decided_by, decision_reason) on panel_reading to clampclock_app;

alter table bond_record_entry drop constraint bond_record_entry__kind;
alter table bond_record_entry add constraint bond_record_entry__kind check (
  kind in ('applied', 'reading', 'readingWithdrawn', 'clamped', 'released', 'abandoned', 'incident', 'inspection', 'disposition'));
