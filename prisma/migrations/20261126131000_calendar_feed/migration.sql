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
