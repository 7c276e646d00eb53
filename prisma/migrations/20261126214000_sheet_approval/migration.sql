-- A data sheet is a claim: a revision counts once somebody else approved it, and from the day that it names. Who recorded
-- it, what was asked about it and stood by, and who decided on it are kept beside its figures, which never change.

alter table product_sheet
  add column valid_from       date,
  add column recorded_by_name text,
  add column answered         text[] not null default '{}',
  -- A revision that was turned down is recorded again, as its next take.
  add column take             integer not null default 1,
  add constraint product_sheet__valid_from check (valid_from is null or valid_from >= issued_on),
  add constraint product_sheet__take check (take >= 1),
  drop constraint product_sheet__revision_once,
  add constraint product_sheet__revision_once unique (product_id, revision, take);

create table product_sheet_decision (
  sheet_id        uuid primary key,
  organization_id uuid not null references organization (id),
  outcome         text not null,
  -- Why it was turned down.
  reason          text not null default '',
  decided_at      timestamptz(3) not null,
  decided_by      uuid,
  decided_by_name text not null,
  -- Nobody else could approve it: the one who recorded it looked again on a later day.
  second_look     boolean not null default false,
  constraint product_sheet_decision__of_sheet unique (organization_id, sheet_id),
  constraint product_sheet_decision__outcome check (outcome in ('approved', 'rejected')),
  constraint product_sheet_decision__reason check (outcome = 'approved' or length(trim(reason)) > 0),
  constraint product_sheet_decision__sheet foreign key (organization_id, sheet_id) references product_sheet (organization_id, id),
  constraint product_sheet_decision__person foreign key (organization_id, decided_by) references person (organization_id, id)
);
-- What was on file before the rule counts as it did, so that nothing that runs breaks; nobody's name is put to it.
insert into product_sheet_decision (sheet_id, organization_id, outcome, decided_at, decided_by_name)
  select id, organization_id, 'approved', recorded_at, 'Before approvals were kept' from product_sheet;
call keep_tenancy('product_sheet_decision', 'select, insert');
create trigger product_sheet_decision__append_only before update or delete on product_sheet_decision
  for each row execute function refuse_change();

create function check_sheet_decision() returns trigger
  language plpgsql
as $$
declare
  sheet product_sheet;
begin
  select * into sheet from product_sheet where id = new.sheet_id;
  if new.decided_by is null then
    raise exception 'product_sheet_decision__by_somebody: a person decides on a data sheet' using errcode = '23514', constraint = 'product_sheet_decision__by_somebody';
  end if;
  if new.second_look is distinct from (new.outcome = 'approved' and coalesce(sheet.recorded_by = new.decided_by, false)) then
    raise exception 'product_sheet_decision__second_look: who recorded a data sheet approves it by a second look, anybody else without'
      using errcode = '23514', constraint = 'product_sheet_decision__second_look';
  end if;
  if new.decided_at < sheet.recorded_at then
    raise exception 'product_sheet_decision__after: a data sheet is decided on after it was recorded' using errcode = '23514', constraint = 'product_sheet_decision__after';
  end if;
  return new;
end
$$;
create trigger product_sheet_decision__checked before insert on product_sheet_decision
  for each row execute function check_sheet_decision();
