-- That the releases of the last month were looked at again, once, because of a revision that has begun to count.
create table product_sheet_recheck (
  sheet_id        uuid primary key,
  organization_id uuid not null references organization (id),
  rechecked_at    timestamptz(3) not null,
  constraint product_sheet_recheck__of_sheet unique (organization_id, sheet_id),
  -- A revision counts only once it is decided on.
  constraint product_sheet_recheck__decision foreign key (organization_id, sheet_id) references product_sheet_decision (organization_id, sheet_id)
);
-- What was released before the rule was released by what was known then.
insert into product_sheet_recheck (sheet_id, organization_id, rechecked_at)
  select sheet_id, organization_id, decided_at from product_sheet_decision where outcome = 'approved';
call keep_tenancy('product_sheet_recheck', 'select, insert');
create trigger product_sheet_recheck__append_only before update or delete on product_sheet_recheck
  for each row execute function refuse_change();
