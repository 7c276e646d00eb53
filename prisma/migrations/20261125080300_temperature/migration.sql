-- Thermometers and what they read.
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
  constraint sensor__of_chain unique (organization_id, id),
  constraint sensor__name_once unique (shop_id, name),
  constraint sensor__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint sensor__resource foreign key (organization_id, shop_id, resource_id) references resource (organization_id, shop_id, id),
  constraint sensor__location foreign key (organization_id, shop_id, location_id) references storage_location (organization_id, shop_id, id),
  constraint sensor__accuracy check (accuracy_c >= 0),
  constraint sensor__one_place check (
    (place = 'bay' and resource_id is not null and location_id is null) or
    (place = 'storage' and location_id is not null and resource_id is null))
);
call keep_tenancy('sensor', 'select, insert, update');

-- The key is the instant: a reading sent twice is stored once.
create table temperature_reading (
  organization_id           uuid not null references organization (id),
  sensor_id                 uuid not null,
  at                        timestamptz(3) not null,
  temperature_c             double precision not null,
  relative_humidity_percent double precision,
  primary key (sensor_id, at),
  constraint temperature_reading__sensor foreign key (organization_id, sensor_id) references sensor (organization_id, id),
  constraint temperature_reading__plausible check (temperature_c between -60 and 350),
  constraint temperature_reading__humidity check (relative_humidity_percent > 0 and relative_humidity_percent <= 100)
);
call keep_tenancy('temperature_reading', 'select, insert');
