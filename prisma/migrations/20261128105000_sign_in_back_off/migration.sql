-- How often signing in failed, by account, by address, and by the two together: kept here and not in a process, so that it
-- holds for all of them and over a start. It belongs to no chain: whose account it is, is not known before the password
-- was right. Nothing is granted to the role of a chain.
create table sign_in_back_off (
  -- A hash: who reads the database learns neither addresses nor who was tried that isn't there.
  key          text primary key,
  failures     integer not null,
  tried_at     timestamptz(3) not null,
  held_until   timestamptz(3) not null,
  succeeded_at timestamptz(3),
  constraint sign_in_back_off__failures check (failures >= 0)
);
create index sign_in_back_off__by_age on sign_in_back_off (tried_at);
alter table sign_in_back_off enable row level security;
