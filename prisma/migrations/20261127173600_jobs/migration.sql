-- What is to be done by itself, in the transaction of its cause: one row a wake-up, gone once it is done. Any number may
-- wait for one subject; they are done at one go. A row and no unique key, so that no request waits for another's commit.
create table job (
  id              bigint generated always as identity primary key,
  organization_id uuid not null references organization (id),
  queue           text not null,
  subject         text not null default '',
  due_at          timestamptz(3) not null default now()
);
create index job__due on job (due_at);
create index job__of_subject on job (organization_id, queue, subject);
call keep_tenancy('job', 'insert');

create function announce_job() returns trigger
  language plpgsql
as $$
begin
  -- The same words again in one transaction are sent once.
  perform pg_notify('clampclock_jobs', '');
  return null;
end
$$;
create trigger job__announce after insert on job
  for each statement execute function announce_job();

-- Who is at it, until when they must be heard from again, and what went wrong before. Gone once it has gone well.
create table job_run (
  id              uuid not null default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  queue           text not null,
  subject         text not null,
  taken_by        uuid,
  taken_until     timestamptz(3),
  failures        integer not null default 0,
  failed_since    timestamptz(3),
  not_before      timestamptz(3),
  last_error      text,
  primary key (organization_id, queue, subject),
  constraint job_run__taken_is_whole check ((taken_by is null) = (taken_until is null)),
  constraint job_run__failed_is_whole check ((failures = 0) = (failed_since is null))
);
call keep_tenancy('job_run', 'select');

-- A look names the next one: when that is overdue, alerts may be missing.
alter table watch_state add column next_at timestamptz(3);

-- Up to when the readings of a chain have been thinned: what is kept is not gone over each day again.
create table reading_thinning (
  organization_id uuid primary key references organization (id),
  through         timestamptz(3) not null
);
call keep_tenancy('reading_thinning', 'select');
-- Old ones are taken out by age.
create index idempotency_key__by_age on idempotency_key (organization_id, created_at);
create index delivery__by_age on delivery (organization_id, created_at);
create index sign_in_session__by_end on sign_in_session (organization_id, expires_at);
