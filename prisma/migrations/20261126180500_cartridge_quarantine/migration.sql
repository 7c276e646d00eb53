-- A cartridge that lay outside its product's storage range, from the reading that said so until somebody entitled decides.
-- The lot's hold ends for the lot; this one ends for the cartridge that was there.
create table cartridge_quarantine (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  cartridge_id    uuid not null,
  since           timestamptz(3) not null,
  recorded_at     timestamptz(3) not null,
  reason          text not null,
  decision        text,
  decided_at      timestamptz(3),
  decided_by      text,
  decision_reason text,
  constraint cartridge_quarantine__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint cartridge_quarantine__says_why check (reason <> ''),
  constraint cartridge_quarantine__decision check (decision in ('use', 'discard')),
  constraint cartridge_quarantine__decided_whole check (
    num_nonnulls(decision, decided_at, decided_by, decision_reason) in (0, 4) and decision_reason <> '')
);
create unique index cartridge_quarantine__one_at_a_time on cartridge_quarantine (cartridge_id) where decided_at is null;
create index cartridge_quarantine__of_cartridge on cartridge_quarantine (cartridge_id, since);
call keep_tenancy('cartridge_quarantine', 'select, insert, update');

-- Decided once, and nothing of it is changed after.
create trigger cartridge_quarantine__decided_once before update on cartridge_quarantine
  for each row when (
    old.decided_at is not null or new.decided_at is null
    or (new.id, new.organization_id, new.cartridge_id, new.since, new.recorded_at, new.reason)
       is distinct from (old.id, old.organization_id, old.cartridge_id, old.since, old.recorded_at, old.reason))
  execute function refuse_change();
create trigger cartridge_quarantine__never_removed before delete on cartridge_quarantine
  for each row execute function refuse_change();
