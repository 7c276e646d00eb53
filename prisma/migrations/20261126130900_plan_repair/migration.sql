-- A plan is made anew, or repairs the published one: what still can stay, stays.
alter table plan
  add column mode text not null default 'anew',
  add constraint plan__mode check (mode in ('anew', 'repair'));
