-- What needs a person, who takes care of it, and who is told of it outside.

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
  owner_id          uuid,
  owner_name        text,
  snoozed_until     timestamptz(3),
  snoozed_by        text,
  closed_at         timestamptz(3),
  closed_by         text,
  resolution        text,
  -- Resolved by hand while its condition still holds: told again only once that has ended and come back.
  condition_ended_at timestamptz(3),
  constraint alert__of_chain unique (organization_id, id),
  constraint alert__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint alert__repair_order foreign key (organization_id, shop_id, repair_order_id) references repair_order (organization_id, shop_id, id),
  constraint alert__severity check (severity in ('danger', 'warning', 'notice')),
  constraint alert__acknowledged_is_whole check ((acknowledged_at is null) = (acknowledged_by is null)),
  constraint alert__owner foreign key (organization_id, owner_id) references person (organization_id, id),
  constraint alert__owner_is_whole check (owner_id is null or owner_name is not null),
  constraint alert__snooze_is_whole check ((snoozed_until is null) = (snoozed_by is null)),
  constraint alert__resolution_is_whole check (
    (resolution is null) = (closed_by is null) and (resolution is null or closed_at is not null))
);
-- Each thing is told once while it lasts.
create unique index alert__once on alert (kind, subject_id, shop_id) where closed_at is null;
create index alert__open on alert (organization_id, shop_id, severity, opened_at) where closed_at is null;
create index alert__resolved_while_standing on alert (organization_id, kind) where closed_by is not null and condition_ended_at is null;
call keep_tenancy('alert', 'select, insert, update');

-- Since when the alerts of a chain are looked after, and whether the last look failed: a watch that fails must not read as
-- 'nothing needs a person'.
create table watch_state (
  organization_id uuid primary key references organization (id),
  watched_at      timestamptz(3),
  failed_at       timestamptz(3),
  constraint watch_state__says_something check (watched_at is not null or failed_at is not null)
);
call keep_tenancy('watch_state', 'select, insert, update');

create table webhook (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  name            text not null,
  url             text not null,
  -- To sign with: it must be kept as it is, and is shown once.
  secret          text not null,
  -- Empty: every kind of alert.
  kinds           text[] not null default '{}',
  active          boolean not null default true,
  created_at      timestamptz(3) not null,
  created_by      text not null,
  constraint webhook__of_chain unique (organization_id, id),
  constraint webhook__name_once unique (organization_id, name),
  constraint webhook__address check (url ~ '^https?://')
);
call keep_tenancy('webhook', 'select, insert, update, delete');

create table digest_subscription (
  organization_id uuid not null references organization (id),
  person_id       uuid primary key,
  hour            integer not null,
  constraint digest_subscription__person foreign key (organization_id, person_id) references person (organization_id, id) on delete cascade,
  constraint digest_subscription__hour check (hour between 0 and 23)
);
call keep_tenancy('digest_subscription', 'select, insert, update, delete');

-- What is to be sent, written in the transaction of what it tells of, and tried until it has arrived.
create table delivery (
  id              bigint generated always as identity primary key,
  organization_id uuid not null references organization (id),
  webhook_id      uuid,
  person_id       uuid,
  message_id      text not null,
  payload         text not null,
  created_at      timestamptz(3) not null,
  attempts        integer not null default 0,
  next_attempt_at timestamptz(3) not null,
  delivered_at    timestamptz(3),
  given_up_at     timestamptz(3),
  last_error      text,
  constraint delivery__message_once unique (organization_id, message_id),
  constraint delivery__webhook foreign key (organization_id, webhook_id) references webhook (organization_id, id) on delete cascade,
  constraint delivery__person foreign key (organization_id, person_id) references person (organization_id, id) on delete cascade,
  constraint delivery__to_one check ((webhook_id is null) <> (person_id is null)),
  constraint delivery__ends_one_way check (delivered_at is null or given_up_at is null)
);
create index delivery__due on delivery (next_attempt_at) where delivered_at is null and given_up_at is null;
create index delivery__of_webhook on delivery (webhook_id, id desc) where webhook_id is not null;
call keep_tenancy('delivery', 'select, insert, update');
