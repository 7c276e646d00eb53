-- A password that an owner set is to be changed before anything else.
alter table person add column must_change_password boolean not null default false;

-- What a person is shown of his sessions, and the change of a session's secret: the one before holds for a moment, for
-- requests that were under way.
alter table sign_in_session
  add column id uuid not null default gen_random_uuid(),
  add column device text not null default '',
  add column last_used_at timestamptz(3),
  add column is_to_rotate boolean not null default false,
  add column previous_hash text,
  add column previous_until timestamptz(3),
  add constraint sign_in_session__of_chain unique (organization_id, id),
  add constraint sign_in_session__device check (length(device) <= 200),
  add constraint sign_in_session__previous check ((previous_hash is null) = (previous_until is null));
create unique index sign_in_session__previous_once on sign_in_session (previous_hash);
-- Whoever changes somebody's roles asks for a new secret, and can change nothing else of a session.
grant update (is_to_rotate) on sign_in_session to clampclock_app;
