-- Whether anything was written since: asked before an answer that is there is told again (docs/decisions/0204). Written by
-- triggers, so that nobody who writes can forget it, and in the transaction of what it tells of.
--
-- A row for each session of the database that wrote, with its last transaction there: two who write never wait for each
-- other, and since later transactions of a session have higher numbers, the sum is another one after each of them.
create table change_mark (
  organization_id uuid not null references organization (id),
  -- The shop that was written to, or the chain itself for what has no shop.
  scope_id        uuid not null,
  session         integer not null,
  transaction     bigint not null,
  primary key (organization_id, scope_id, session)
);
call keep_tenancy('change_mark', 'select');

-- What was written, in both its states: a cartridge that moves is news in two shops.
create function mark_change_of_shop() returns trigger
  language plpgsql security definer set search_path from current
as $$
begin
  if tg_op <> 'DELETE' then
    insert into change_mark
      select distinct organization_id, coalesce(shop_id, organization_id), pg_backend_pid(), pg_current_xact_id()::text::bigint from written
      on conflict (organization_id, scope_id, session)
        do update set transaction = excluded.transaction where change_mark.transaction <> excluded.transaction;
  end if;
  if tg_op <> 'INSERT' then
    insert into change_mark
      select distinct organization_id, coalesce(shop_id, organization_id), pg_backend_pid(), pg_current_xact_id()::text::bigint from overwritten
      on conflict (organization_id, scope_id, session)
        do update set transaction = excluded.transaction where change_mark.transaction <> excluded.transaction;
  end if;
  return null;
end
$$;

create function mark_change_of_chain() returns trigger
  language plpgsql security definer set search_path from current
as $$
begin
  if tg_op <> 'DELETE' then
    insert into change_mark
      select distinct organization_id, organization_id, pg_backend_pid(), pg_current_xact_id()::text::bigint from written
      on conflict (organization_id, scope_id, session)
        do update set transaction = excluded.transaction where change_mark.transaction <> excluded.transaction;
  else
    insert into change_mark
      select distinct organization_id, organization_id, pg_backend_pid(), pg_current_xact_id()::text::bigint from overwritten
      on conflict (organization_id, scope_id, session)
        do update set transaction = excluded.transaction where change_mark.transaction <> excluded.transaction;
  end if;
  return null;
end
$$;

-- Readings come by the minute in every shop, and have no shop of their own. A thermometer stays in its shop.
create function mark_change_of_readings() returns trigger
  language plpgsql security definer set search_path from current
as $$
begin
  if tg_op <> 'DELETE' then
    insert into change_mark
      select distinct s.organization_id, s.shop_id, pg_backend_pid(), pg_current_xact_id()::text::bigint
        from (select distinct sensor_id from written) r join sensor s on s.id = r.sensor_id
      on conflict (organization_id, scope_id, session)
        do update set transaction = excluded.transaction where change_mark.transaction <> excluded.transaction;
  else
    insert into change_mark
      select distinct s.organization_id, s.shop_id, pg_backend_pid(), pg_current_xact_id()::text::bigint
        from (select distinct sensor_id from overwritten) r join sensor s on s.id = r.sensor_id
      on conflict (organization_id, scope_id, session)
        do update set transaction = excluded.transaction where change_mark.transaction <> excluded.transaction;
  end if;
  return null;
end
$$;

-- Called once for each table of which an answer may tell; tests/database/change-marks.test.ts asks it of every table there is.
create procedure mark_changes(target regclass, by text)
  language plpgsql
as $$
declare
  name text := (select relname from pg_class where oid = target);
begin
  execute format('create trigger %I after insert on %s referencing new table as written for each statement execute function %I()',
                 name || '__marks_insert', target, by);
  execute format('create trigger %I after update on %s referencing new table as written old table as overwritten for each statement execute function %I()',
                 name || '__marks_update', target, by);
  execute format('create trigger %I after delete on %s referencing old table as overwritten for each statement execute function %I()',
                 name || '__marks_delete', target, by);
end
$$;

do $$
declare
  known record;
begin
  for known in
    select c.oid::regclass as target, c.relname as name,
           exists (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'shop_id') as has_shop
      from pg_policy p join pg_class c on c.oid = p.polrelid
     where p.polname = 'tenancy' and c.relnamespace = current_schema()::regnamespace
       -- Bookkeeping of the service, of which no answer tells.
       and c.relname not in ('change_mark', 'outbox_event', 'idempotency_key', 'sign_in_session', 'access_token', 'delivery',
                             'digest_subscription', 'webhook', 'calendar_feed')
  loop
    call mark_changes(known.target, case when known.name = 'temperature_reading' then 'mark_change_of_readings'
                                         when known.has_shop then 'mark_change_of_shop'
                                         else 'mark_change_of_chain' end);
  end loop;
end
$$;
