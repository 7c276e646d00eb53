-- Since when the alerts of a chain are looked after, and whether the last look failed: a watch that fails must not read as
-- 'nothing needs a person'.
create table watch_state (
  organization_id uuid primary key references organization (id),
  watched_at      timestamptz(3),
  failed_at       timestamptz(3),
  constraint watch_state__says_something check (watched_at is not null or failed_at is not null)
);
call keep_tenancy('watch_state', 'select, insert, update');
