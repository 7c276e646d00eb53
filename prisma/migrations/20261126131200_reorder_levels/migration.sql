-- Levels as they were last computed: looked at every half minute, computed a few times a day.
create table reorder_level (
  organization_id  uuid not null references organization (id),
  shop_id          uuid not null,
  product_id       uuid not null,
  reorder_point_ul integer not null,
  order_up_to_ul   integer not null,
  computed_at      timestamptz(3) not null,
  primary key (shop_id, product_id),
  constraint reorder_level__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint reorder_level__product foreign key (organization_id, product_id) references product (organization_id, id),
  constraint reorder_level__in_order check (reorder_point_ul >= 0 and reorder_point_ul <= order_up_to_ul)
);
call keep_tenancy('reorder_level', 'select, insert, update, delete');

-- When the levels of a shop were computed; a shop without any use has none to keep it by.
alter table shop add column levels_computed_at timestamptz(3);
