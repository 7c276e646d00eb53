-- A template that a shop does not use stays on file, but is offered nowhere; the version tells two editors of each other.
alter table repair_template
  add column set_aside boolean not null default false,
  add column version   integer not null default 1;
