-- Thermometers, what they read, and what people decided about it.

create table sensor (
  id               uuid primary key default gen_random_uuid(),
  organization_id  uuid not null references organization (id),
  shop_id          uuid not null,
  name             text not null,
  place            text not null,
  resource_id      uuid,
  location_id      uuid,
  accuracy_c       double precision not null,
  calibrated_until date,
  retired_at       timestamptz(3),
  doubted_since    timestamptz(3),
  constraint sensor__of_chain unique (organization_id, id),
  constraint sensor__name_once unique (shop_id, name),
  constraint sensor__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint sensor__resource foreign key (organization_id, shop_id, resource_id) references resource (organization_id, shop_id, id),
  constraint sensor__location foreign key (organization_id, shop_id, location_id) references storage_location (organization_id, shop_id, id),
  constraint sensor__accuracy check (accuracy_c between 0 and 20),
  constraint sensor__one_place check (
    (place = 'bay' and resource_id is not null and location_id is null) or
    (place = 'storage' and location_id is not null and resource_id is null))
);
call keep_tenancy('sensor', 'select, insert, update');

-- What people decide about a thermometer and what it read: kept for ever, the readings beside it.
create table sensor_decision (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  sensor_id       uuid not null,
  kind            text not null,
  -- The readings it speaks of; both null for the thermometer itself.
  from_at         timestamptz(3),
  until_at        timestamptz(3),
  readings        integer not null default 0,
  replaced_by_id  uuid,
  reason          text not null,
  at              timestamptz(3) not null,
  decided_by      text not null,
  constraint sensor_decision__of_chain unique (organization_id, id),
  constraint sensor_decision__sensor foreign key (organization_id, sensor_id) references sensor (organization_id, id),
  constraint sensor_decision__replaced_by foreign key (organization_id, replaced_by_id) references sensor (organization_id, id),
  constraint sensor_decision__kind check (kind in ('retired', 'doubted', 'trusted', 'withdrawn', 'wasFahrenheit', 'wasCelsius')),
  constraint sensor_decision__span check (
    (kind in ('retired', 'doubted', 'trusted')) = (from_at is null) and (from_at is null) = (until_at is null) and from_at <= until_at),
  constraint sensor_decision__replaced_is_retired check (replaced_by_id is null or kind = 'retired'),
  constraint sensor_decision__says_why check (reason <> '')
);
create index sensor_decision__of_sensor on sensor_decision (sensor_id, at);
call keep_tenancy('sensor_decision', 'select, insert');
create trigger sensor_decision__append_only before update or delete on sensor_decision
  for each row execute function refuse_change();

-- The key is the instant: a reading sent twice is stored once.
create table temperature_reading (
  organization_id           uuid not null references organization (id),
  sensor_id                 uuid not null,
  at                        timestamptz(3) not null,
  temperature_c             double precision not null,
  -- What came, where somebody put another value in its place.
  sent_c                    double precision,
  relative_humidity_percent double precision,
  quality                   text not null default 'good',
  findings                  jsonb,
  entered_at                timestamptz(3),
  decision_id               uuid,
  primary key (sensor_id, at),
  constraint temperature_reading__sensor foreign key (organization_id, sensor_id) references sensor (organization_id, id),
  constraint temperature_reading__plausible check (temperature_c between -60 and 300),
  constraint temperature_reading__humidity check (relative_humidity_percent > 0 and relative_humidity_percent <= 100),
  constraint temperature_reading__quality check (quality in ('good', 'suspect', 'withdrawn')),
  constraint temperature_reading__findings check (jsonb_typeof(findings) = 'array'),
  constraint temperature_reading__suspect_says_why check (quality = 'good' or findings is not null or decision_id is not null),
  constraint temperature_reading__corrected_says_who check (sent_c is null or decision_id is not null),
  constraint temperature_reading__decision foreign key (organization_id, decision_id) references sensor_decision (organization_id, id)
);
create index temperature_reading__suspect on temperature_reading (sensor_id, entered_at) where quality = 'suspect';
call keep_tenancy('temperature_reading', 'select, insert');

create function keep_temperature_reading() returns trigger
  language plpgsql
as $$
begin
  if old.quality = 'withdrawn'
     or (to_jsonb(old) - '{quality,findings,entered_at,temperature_c,sent_c,decision_id}'::text[])
        is distinct from (to_jsonb(new) - '{quality,findings,entered_at,temperature_c,sent_c,decision_id}'::text[])
     or (new.temperature_c is distinct from old.temperature_c
         and (new.decision_id is null or new.decision_id is not distinct from old.decision_id
              or new.sent_c is distinct from coalesce(old.sent_c, old.temperature_c)))
     or (new.temperature_c is not distinct from old.temperature_c and new.sent_c is distinct from old.sent_c) then
    raise exception 'what a thermometer sent is kept: decide about it instead' using errcode = 'CC001';
  end if;
  return new;
end
$$;
create trigger temperature_reading__kept before update on temperature_reading
  for each row execute function keep_temperature_reading();
grant update (quality, findings, entered_at, temperature_c, sent_c, decision_id) on temperature_reading to clampclock_app;
