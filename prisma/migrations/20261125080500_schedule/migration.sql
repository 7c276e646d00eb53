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
  note            text not null default '',
  cancelled_at    timestamptz(3),
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
    where (exclusive and cancelled_at is null)
);
create index booking__of_shop_by_time on booking using gist (shop_id, tstzrange(starts_at, ends_at, '[)')) where (cancelled_at is null);
create index booking__of_repair_order on booking (repair_order_id) where cancelled_at is null;
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

create table alert (
  id                uuid primary key default gen_random_uuid(),
  organization_id   uuid not null references organization (id),
  shop_id           uuid not null,
  kind              text not null,
  severity          text not null,
  message           text not null,
  subject_kind      text not null,
  subject_id        uuid not null,
  repair_order_id   uuid,
  needs_disposition boolean not null default false,
  opened_at         timestamptz(3) not null,
  acknowledged_at   timestamptz(3),
  acknowledged_by   text,
  closed_at         timestamptz(3),
  constraint alert__of_chain unique (organization_id, id),
  constraint alert__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint alert__repair_order foreign key (organization_id, shop_id, repair_order_id) references repair_order (organization_id, shop_id, id),
  constraint alert__severity check (severity in ('danger', 'warning', 'notice')),
  constraint alert__acknowledged_is_whole check ((acknowledged_at is null) = (acknowledged_by is null))
);
-- Each thing is told once while it lasts.
create unique index alert__once on alert (kind, subject_id, shop_id) where closed_at is null;
create index alert__open on alert (organization_id, shop_id, severity, opened_at) where closed_at is null;
call keep_tenancy('alert', 'select, insert, update');
