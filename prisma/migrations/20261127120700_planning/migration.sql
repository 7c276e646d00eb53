-- Where and when people work, what is to be done on each vehicle, plans of it, and the bookings that they and people make.

-- The working week, in minutes of the shop's own clock; a null resource is the shop, whose hours hold for everybody
-- without hours of their own. What lies between two shifts of a day is a break.
create table work_shift (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  resource_id     uuid,
  weekday         integer not null,
  from_minute     integer not null,
  until_minute    integer not null,
  constraint work_shift__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint work_shift__resource foreign key (organization_id, shop_id, resource_id) references resource (organization_id, shop_id, id),
  constraint work_shift__weekday check (weekday between 1 and 7),
  constraint work_shift__within_the_day check (0 <= from_minute and from_minute < until_minute and until_minute <= 1440),
  constraint work_shift__no_overlap exclude using gist (
    shop_id with =, (coalesce(resource_id, shop_id)) with =, weekday with =, int4range(from_minute, until_minute) with &&)
);
create index work_shift__of_shop on work_shift (shop_id);
call keep_tenancy('work_shift', 'select, insert, delete');

-- Days on which the week does not hold: closed, somebody away, overtime. Days and minutes of the shop's own clock.
create table day_exception (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  resource_id     uuid,
  kind            text not null,
  first_day       date not null,
  last_day        date not null,
  from_minute     integer,
  until_minute    integer,
  note            text not null default '',
  constraint day_exception__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint day_exception__resource foreign key (organization_id, shop_id, resource_id) references resource (organization_id, shop_id, id),
  constraint day_exception__kind check (kind in ('closed', 'absent', 'overtime')),
  constraint day_exception__days check (first_day <= last_day),
  constraint day_exception__minutes check (
    (from_minute is null) = (until_minute is null) and 0 <= from_minute and from_minute < until_minute and until_minute <= 1440),
  -- A shop is closed, somebody or something of it is absent; overtime has hours.
  constraint day_exception__whose check (
    (kind <> 'closed' or resource_id is null) and (kind <> 'absent' or resource_id is not null) and (kind <> 'overtime' or from_minute is not null))
);
create index day_exception__of_shop on day_exception (shop_id, last_day);
call keep_tenancy('day_exception', 'select, insert, delete');

-- A shop's own version of a repair template, or one that it made itself. One that it does not use stays on file, but is
-- offered nowhere; the version tells two editors of each other.
create table repair_template (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  key             text not null,
  name            text not null,
  steps           jsonb not null,
  set_aside       boolean not null default false,
  version         integer not null default 1,
  constraint repair_template__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint repair_template__key_once unique (shop_id, key)
);
call keep_tenancy('repair_template', 'select, insert, update, delete');

create table operation (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  repair_order_id uuid not null,
  joint_id        uuid,
  position        integer not null,
  kind            text not null,
  name            text not null,
  place           text not null,
  -- Null for a cure: how long it takes follows from the product and from how warm the bay will be.
  work_minutes    integer,
  technicians     integer not null,
  skill           text,
  clamp_sets      integer not null default 0,
  attributes      text[] not null default '{}',
  highest_metal_c double precision,
  -- A bake may know the program of the oven: its minutes and highest metal temperature are then worked out from it.
  bake_program    jsonb,
  started_at      timestamptz(3),
  finished_at     timestamptz(3),
  expected_end_at timestamptz(3),
  -- Where it was in truth started, and by whom.
  place_id        uuid,
  technician_ids  uuid[] not null default '{}',
  version         integer not null default 1,
  constraint operation__of_shop unique (organization_id, shop_id, id),
  constraint operation__repair_order foreign key (organization_id, shop_id, repair_order_id) references repair_order (organization_id, shop_id, id),
  constraint operation__joint foreign key (organization_id, shop_id, joint_id) references joint (organization_id, shop_id, id),
  constraint operation__kind check (kind in (
    'prepare', 'dryFit', 'bondAndClamp', 'cure', 'unclampAndDress', 'weld', 'sealAndPrime', 'paint', 'bake', 'cool', 'refit')),
  constraint operation__place check (place in ('bay', 'oven')),
  constraint operation__cure_has_no_length check ((kind = 'cure') = (work_minutes is null)),
  constraint operation__length check (work_minutes between 1 and 10080),
  constraint operation__bonding_has_a_joint check (kind not in ('bondAndClamp', 'cure') or joint_id is not null),
  constraint operation__unattended check ((kind in ('cure', 'bake', 'cool')) = (technicians = 0)),
  constraint operation__technicians check (technicians between 0 and 4),
  constraint operation__skill check (skill in ('body', 'structural', 'aluminium', 'welding', 'paint', 'fitting')),
  constraint operation__clamp_sets check (clamp_sets between 0 and 500),
  constraint operation__attributes check (attributes <@ array['lift', 'frameBench', 'heat', 'dustFree']),
  constraint operation__bake_has_a_temperature check ((kind = 'bake') = (highest_metal_c is not null)),
  constraint operation__finished_after_started check (finished_at is null or (started_at is not null and finished_at >= started_at)),
  constraint operation__where foreign key (organization_id, shop_id, place_id) references resource (organization_id, shop_id, id),
  constraint operation__program_is_of_a_bake check (bake_program is null or (kind = 'bake' and jsonb_typeof(bake_program) = 'object')),
  constraint operation__metal_plausible check (highest_metal_c between -60 and 300)
);
create index operation__of_repair_order on operation (repair_order_id, position);
create index operation__unfinished on operation (shop_id) where finished_at is null;
call keep_tenancy('operation', 'select, insert, update, delete');

-- A draft beside the published one, and what was promised and changed, on record.
create table plan (
  id                 uuid primary key default gen_random_uuid(),
  organization_id    uuid not null references organization (id),
  shop_id            uuid not null,
  state              text not null,
  -- The published plan that it was made from; publishing asks whether that still stands.
  based_on           uuid,
  -- Made anew, or a repair of the published one: what still can stay, stays.
  mode               text not null default 'anew',
  reason             text not null,
  seed               integer not null,
  iterations         integer not null,
  seconds            double precision not null,
  -- The planner's problem as of `origin_at`, and its plan: enough to check a move, or to judge it once more.
  origin_at          timestamptz(3) not null,
  problem            jsonb not null,
  -- By repair order that is in it. A plan without says nothing of changed work.
  work_versions      jsonb not null default '{}',
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
    (state <> 'failed' or fault is not null)),
  constraint plan__mode check (mode in ('anew', 'repair')),
  constraint plan__work_versions_by_order check (jsonb_typeof(work_versions) = 'object')
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

-- Bookings: the database alone decides whether a place is free.
create table booking (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  resource_id     uuid not null,
  repair_order_id uuid not null,
  purpose         text not null default 'work',
  starts_at       timestamptz(3) not null,
  ends_at         timestamptz(3) not null,
  units           integer not null default 1,
  exclusive       boolean not null default true,
  highest_metal_c double precision,
  -- A bake may be booked by the program of the oven; the highest metal temperature is then the one worked out from it.
  bake_program    jsonb,
  -- How warm the metal was said to be when the vehicle goes to the oven; null: as it is expected to be then.
  metal_start_c   double precision,
  note            text not null default '',
  cancelled_at    timestamptz(3),
  -- A booking that a plan made is moved by the plan, and by nobody else.
  plan_id         uuid,
  operation_id    uuid,
  version         integer not null default 1,
  constraint booking__of_shop unique (organization_id, shop_id, id),
  constraint booking__resource foreign key (organization_id, shop_id, resource_id) references resource (organization_id, shop_id, id),
  constraint booking__repair_order foreign key (organization_id, shop_id, repair_order_id) references repair_order (organization_id, shop_id, id),
  constraint booking__purpose check (purpose in ('work', 'bake')),
  constraint booking__bake_has_a_temperature check ((purpose = 'bake') = (highest_metal_c is not null)),
  constraint booking__units check (units >= 1),
  constraint booking__ends_after_start check (starts_at < ends_at),
  -- Half-open: one may begin when the other ends.
  constraint booking__place_is_free
    exclude using gist (resource_id with =, tstzrange(starts_at, ends_at, '[)') with &&)
    where (exclusive and cancelled_at is null),
  constraint booking__program_is_of_a_bake check (bake_program is null or purpose = 'bake'),
  constraint booking__metal_start_is_of_a_program check (metal_start_c is null or bake_program is not null),
  constraint booking__metal_plausible check (highest_metal_c between -60 and 300 and metal_start_c between -60 and 300),
  constraint booking__plan foreign key (organization_id, shop_id, plan_id) references plan (organization_id, shop_id, id),
  constraint booking__operation foreign key (organization_id, shop_id, operation_id) references operation (organization_id, shop_id, id) on delete set null (operation_id),
  constraint booking__operation_of_a_plan check (operation_id is null or plan_id is not null)
);
create index booking__of_shop_by_time on booking using gist (shop_id, tstzrange(starts_at, ends_at, '[)')) where (cancelled_at is null);
create index booking__of_repair_order on booking (repair_order_id) where cancelled_at is null;
create index booking__of_plan on booking (shop_id) where plan_id is not null and cancelled_at is null;
call keep_tenancy('booking', 'select, insert, update');

-- Whether a booking excludes others follows from the resource, not from the writer. Counted resources are
-- locked while their peak is looked up, so that two writers cannot both see room for one more.
create function keep_capacity() returns trigger
  language plpgsql
as $$
declare
  total integer;
  peak  integer;
begin
  select capacity into total from resource where id = new.resource_id;
  new.exclusive := total = 1;
  if new.cancelled_at is not null then
    return new;
  end if;
  if new.units > total then
    raise exception 'there are only % of it', total using errcode = '23P01', constraint = 'booking__within_capacity';
  end if;
  if total > 1 then
    perform from resource where id = new.resource_id for no key update;
    select coalesce(max(used), 0) into peak from (
      select sum(other.units) as used
        from (select starts_at as instant from booking
               where resource_id = new.resource_id and cancelled_at is null and id <> new.id
                 and starts_at >= new.starts_at and starts_at < new.ends_at
              union select new.starts_at) as instants
        join booking other on other.resource_id = new.resource_id and other.cancelled_at is null and other.id <> new.id
                          and other.starts_at <= instants.instant and instants.instant < other.ends_at
       group by instants.instant) as loads;
    if peak + new.units > total then
      raise exception '% of % are booked in that period', peak, total using errcode = '23P01', constraint = 'booking__within_capacity';
    end if;
  end if;
  return new;
end
$$;
create trigger booking__keep_capacity before insert or update on booking
  for each row execute function keep_capacity();

-- Secret addresses of calendars: who has one sees the bookings of one bay or person, and nothing else.
create table calendar_feed (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  resource_id     uuid not null,
  secret_hash     text not null,
  created_at      timestamptz(3) not null,
  created_by      text not null,
  last_used_at    timestamptz(3),
  revoked_at      timestamptz(3),
  constraint calendar_feed__of_shop unique (organization_id, shop_id, id),
  constraint calendar_feed__secret_once unique (secret_hash),
  constraint calendar_feed__resource foreign key (organization_id, shop_id, resource_id) references resource (organization_id, shop_id, id)
);
create index calendar_feed__of_shop_by_resource on calendar_feed (shop_id, resource_id);
call keep_tenancy('calendar_feed', 'select, insert, update');
