-- What the plan is made from: where and when people work, and what is to be done on each vehicle.

alter table resource
  add column attributes text[] not null default '{}',
  add column skills     text[] not null default '{}',
  add constraint resource__attributes check (
    attributes <@ array['lift', 'frameBench', 'heat', 'dustFree'] and (attributes = '{}' or kind in ('bay', 'oven'))),
  add constraint resource__skills check (
    skills <@ array['body', 'structural', 'aluminium', 'welding', 'paint', 'fitting'] and (skills = '{}' or kind = 'technician'));

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

-- A shop's own version of a repair template, or one that it made itself.
create table repair_template (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  key             text not null,
  name            text not null,
  steps           jsonb not null,
  constraint repair_template__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint repair_template__key_once unique (shop_id, key)
);
call keep_tenancy('repair_template', 'select, insert, update, delete');

alter table repair_order
  add column priority text not null default 'normal',
  add constraint repair_order__priority check (priority in ('low', 'normal', 'high', 'rush'));

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
  started_at      timestamptz(3),
  finished_at     timestamptz(3),
  expected_end_at timestamptz(3),
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
  constraint operation__finished_after_started check (finished_at is null or (started_at is not null and finished_at >= started_at))
);
create index operation__of_repair_order on operation (repair_order_id, position);
create index operation__unfinished on operation (shop_id) where finished_at is null;
call keep_tenancy('operation', 'select, insert, update, delete');
