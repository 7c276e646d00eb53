-- Chains, shops, people and their access, the outbox of events, and what every later table builds on.

create extension if not exists btree_gist;

-- Requests run as this role, which owns nothing and sees only the chain set for its transaction.
-- Roles belong to the whole server, so another database, or another process starting now, may have made it.
do $$
begin
  if not exists (select from pg_roles where rolname = 'clampclock_app') then
    create role clampclock_app nologin;
  end if;
exception
  when duplicate_object or unique_violation then null;
end
$$;
do $$
begin
  execute format('grant clampclock_app to %I', current_user);
  execute format('grant usage on schema %I to clampclock_app', current_schema());
end
$$;

-- The chain of the transaction; null outside one, and then no row is seen.
create function current_organization() returns uuid
  language sql stable
  return nullif(current_setting('clampclock.organization_id', true), '')::uuid;

-- The one template of tenancy: called once for each table of a chain's data, checked by
-- tests/database/tenancy.test.ts for every table there is.
-- The chain of the transaction is looked up once a statement, not once a row: inside a subquery that names no column the
-- planner asks for it beforehand.
create procedure keep_tenancy(target regclass, privileges text)
  language plpgsql
as $$
begin
  execute format('alter table %s enable row level security', target);
  execute format(
    'create policy tenancy on %s to clampclock_app using (organization_id = (select current_organization())) with check (organization_id = (select current_organization()))',
    target);
  execute format('grant %s on %s to clampclock_app', privileges, target);
end
$$;

create table organization (
  id         uuid primary key default gen_random_uuid(),
  name       text not null,
  -- The invented chain that a first start loads: its sign-ins are shown to everybody.
  is_demo    boolean not null default false,
  created_at timestamptz(3) not null default now()
);
grant select on organization to clampclock_app;

create table shop (
  id               uuid primary key default gen_random_uuid(),
  organization_id  uuid not null references organization (id),
  name             text not null,
  time_zone        text not null,
  temperature_unit text not null default 'F',
  -- When its order levels were computed; a shop without any use has none to keep it by.
  levels_computed_at timestamptz(3),
  version          integer not null default 1,
  created_at       timestamptz(3) not null default now(),
  constraint shop__of_chain unique (organization_id, id),
  constraint shop__name_once unique (organization_id, name),
  constraint shop__temperature_unit check (temperature_unit in ('C', 'F'))
);
call keep_tenancy('shop', 'select, insert, update');

create table person (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  name            text not null,
  email           text not null,
  password_hash   text not null,
  disabled_at     timestamptz(3),
  created_at      timestamptz(3) not null default now(),
  constraint person__of_chain unique (organization_id, id),
  -- Somebody signs in by address alone, so an address stands for one person in the whole service.
  constraint person__email_once unique (email),
  constraint person__email_lower_case check (email = lower(email))
);
call keep_tenancy('person', 'select, insert, update');

-- A null shop means every shop of the chain.
create table membership (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  person_id       uuid not null,
  shop_id         uuid,
  role            text not null,
  constraint membership__person foreign key (organization_id, person_id) references person (organization_id, id) on delete cascade,
  constraint membership__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint membership__role check (role in ('owner', 'partsManager', 'scheduler', 'technician', 'viewer')),
  constraint membership__once unique nulls not distinct (person_id, shop_id, role)
);
call keep_tenancy('membership', 'select, insert, update, delete');

-- Only hashes of secrets are kept: who reads the database cannot sign in with what is in it.
create table sign_in_session (
  secret_hash     text primary key,
  organization_id uuid not null references organization (id),
  person_id       uuid not null,
  created_at      timestamptz(3) not null default now(),
  expires_at      timestamptz(3) not null,
  constraint sign_in_session__person foreign key (organization_id, person_id) references person (organization_id, id) on delete cascade
);
create index sign_in_session__of_person on sign_in_session (person_id);
call keep_tenancy('sign_in_session', 'select, insert, delete');

create table access_token (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid,
  name            text not null,
  scope           text not null,
  secret_hash     text not null,
  created_by      uuid not null,
  created_at      timestamptz(3) not null default now(),
  last_used_at    timestamptz(3),
  revoked_at      timestamptz(3),
  constraint access_token__secret_once unique (secret_hash),
  constraint access_token__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint access_token__creator foreign key (organization_id, created_by) references person (organization_id, id),
  constraint access_token__scope check (scope in ('sensor', 'integration'))
);
call keep_tenancy('access_token', 'select, insert, update');

-- What a POST with an Idempotency-Key answered, stored in the transaction of its effect.
create table idempotency_key (
  organization_id uuid not null references organization (id),
  actor_id        uuid not null,
  key             text not null,
  request_hash    text not null,
  status          integer,
  response        jsonb,
  created_at      timestamptz(3) not null default now(),
  primary key (organization_id, actor_id, key)
);
call keep_tenancy('idempotency_key', 'select, insert, update');

-- Events are written in the transaction of what they tell of; NOTIFY goes out when it commits.
create table outbox_event (
  id              bigint generated always as identity primary key,
  organization_id uuid not null references organization (id),
  shop_id         uuid,
  topic           text not null,
  subject_id      uuid,
  created_at      timestamptz(3) not null default now()
);
create index outbox_event__by_age on outbox_event (created_at);
call keep_tenancy('outbox_event', 'select, insert');

create function announce_outbox_event() returns trigger
  language plpgsql
as $$
begin
  perform pg_notify('clampclock_events', json_build_object(
    'id', new.id, 'organizationId', new.organization_id, 'shopId', new.shop_id,
    'topic', new.topic, 'subjectId', new.subject_id)::text);
  return null;
end
$$;
create trigger outbox_event__announce after insert on outbox_event
  for each row execute function announce_outbox_event();

-- Histories are added to, never changed. SQLSTATE class CC is ours.
create function refuse_change() returns trigger
  language plpgsql
as $$
begin
  raise exception '% is append-only: add a correcting row instead', tg_table_name using errcode = 'CC001';
end
$$;
