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
  constraint bond_record_entry__kind check (kind in ('applied', 'reading', 'clamped', 'released', 'abandoned', 'incident', 'disposition'))
);
create index bond_record_entry__of_bond on bond_record_entry (bond_id, sequence);
call keep_tenancy('bond_record_entry', 'select, insert');
create trigger bond_record_entry__append_only before update or delete on bond_record_entry
  for each row execute function refuse_change();
create trigger bond_record_entry__no_truncate before truncate on bond_record_entry
  for each statement execute function refuse_change();
