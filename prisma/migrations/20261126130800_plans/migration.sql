-- Plans: a draft beside the published one, and what was promised and changed, on record.

-- Where an operation was in truth started, and by whom.
alter table operation
  add column place_id       uuid,
  add column technician_ids uuid[] not null default '{}',
  add constraint operation__where foreign key (organization_id, shop_id, place_id) references resource (organization_id, shop_id, id);

create table plan (
  id                 uuid primary key default gen_random_uuid(),
  organization_id    uuid not null references organization (id),
  shop_id            uuid not null,
  state              text not null,
  -- The published plan that it was made from; publishing asks whether that still stands.
  based_on           uuid,
  reason             text not null,
  seed               integer not null,
  iterations         integer not null,
  seconds            double precision not null,
  -- The planner's problem as of `origin_at`, and its plan: enough to check a move, or to judge it once more.
  origin_at          timestamptz(3) not null,
  problem            jsonb not null,
  planned            jsonb,
  progress           jsonb,
  notes              jsonb not null,
  summary            jsonb,
  fault              text,
  created_at         timestamptz(3) not null,
  created_by         text not null,
  claimed_at         timestamptz(3),
  stop_asked_at      timestamptz(3),
  finished_at        timestamptz(3),
  published_at       timestamptz(3),
  published_by       text,
  superseded_at      timestamptz(3),
  constraint plan__of_shop unique (organization_id, shop_id, id),
  constraint plan__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint plan__based_on foreign key (organization_id, shop_id, based_on) references plan (organization_id, shop_id, id),
  constraint plan__state check (state in ('solving', 'draft', 'published', 'superseded', 'discarded', 'failed')),
  constraint plan__state_has_its_facts check (
    (state not in ('draft', 'published', 'superseded') or planned is not null) and
    (state not in ('published', 'superseded') or (published_at is not null and published_by is not null)) and
    (state <> 'superseded' or superseded_at is not null) and
    (state <> 'failed' or fault is not null))
);
create unique index plan__one_published on plan (shop_id) where state = 'published';
create index plan__of_shop_by_age on plan (shop_id, created_at);
create index plan__to_solve on plan (created_at) where state = 'solving';
call keep_tenancy('plan', 'select, insert, update');

create table planned_operation (
  plan_id         uuid not null,
  operation_id    uuid not null,
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  starts_at       timestamptz(3) not null,
  ends_at         timestamptz(3) not null,
  -- Of a cure: when it is expected to be through; it ends, for the plan, on the careful estimate.
  expected_end_at timestamptz(3),
  place_id        uuid,
  technician_ids  uuid[] not null,
  overtime        boolean not null,
  primary key (plan_id, operation_id),
  constraint planned_operation__plan foreign key (organization_id, shop_id, plan_id) references plan (organization_id, shop_id, id),
  constraint planned_operation__operation foreign key (organization_id, shop_id, operation_id) references operation (organization_id, shop_id, id) on delete cascade,
  constraint planned_operation__place foreign key (organization_id, shop_id, place_id) references resource (organization_id, shop_id, id),
  constraint planned_operation__ends_after_start check (starts_at <= ends_at)
);
create index planned_operation__of_operation on planned_operation (operation_id);
call keep_tenancy('planned_operation', 'select, insert');

-- Where a vehicle stands, and what is held on it, over several operations.
create table planned_stay (
  id              uuid primary key default gen_random_uuid(),
  plan_id         uuid not null,
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  repair_order_id uuid not null,
  resource_id     uuid not null,
  starts_at       timestamptz(3) not null,
  ends_at         timestamptz(3) not null,
  units           integer not null,
  constraint planned_stay__plan foreign key (organization_id, shop_id, plan_id) references plan (organization_id, shop_id, id),
  constraint planned_stay__repair_order foreign key (organization_id, shop_id, repair_order_id) references repair_order (organization_id, shop_id, id),
  constraint planned_stay__resource foreign key (organization_id, shop_id, resource_id) references resource (organization_id, shop_id, id),
  constraint planned_stay__ends_after_start check (starts_at < ends_at),
  constraint planned_stay__units check (units >= 1)
);
create index planned_stay__of_plan on planned_stay (plan_id);
call keep_tenancy('planned_stay', 'select, insert');

-- What each publication changed, for ever.
create table plan_change (
  id              bigint generated always as identity primary key,
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  plan_id         uuid not null,
  repair_order_id uuid not null,
  operation_id    uuid not null,
  operation_name  text not null,
  kind            text not null,
  was_starts_at   timestamptz(3),
  was_ends_at     timestamptz(3),
  starts_at       timestamptz(3),
  ends_at         timestamptz(3),
  was_place       text,
  place           text,
  reason          text not null,
  at              timestamptz(3) not null,
  recorded_by     text not null,
  constraint plan_change__plan foreign key (organization_id, shop_id, plan_id) references plan (organization_id, shop_id, id),
  constraint plan_change__kind check (kind in ('added', 'moved', 'removed')),
  constraint plan_change__has_its_instants check (
    (kind = 'added' or was_starts_at is not null) and (kind = 'removed' or starts_at is not null))
);
create index plan_change__of_shop on plan_change (shop_id, at);
create index plan_change__of_order on plan_change (repair_order_id, at);
call keep_tenancy('plan_change', 'select, insert');
create trigger plan_change__append_only before update or delete on plan_change
  for each row execute function refuse_change();
create trigger plan_change__no_truncate before truncate on plan_change
  for each statement execute function refuse_change();

-- A booking that a plan made is moved by the plan, and by nobody else.
alter table booking
  add column plan_id      uuid,
  add column operation_id uuid,
  add constraint booking__plan foreign key (organization_id, shop_id, plan_id) references plan (organization_id, shop_id, id),
  add constraint booking__operation foreign key (organization_id, shop_id, operation_id) references operation (organization_id, shop_id, id) on delete set null (operation_id),
  add constraint booking__operation_of_a_plan check (operation_id is null or plan_id is not null);
create index booking__of_plan on booking (shop_id) where plan_id is not null and cancelled_at is null;
