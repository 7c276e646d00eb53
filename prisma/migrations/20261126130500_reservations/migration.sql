-- Which cartridge is kept for which joint, on the day that it is used.
create table reservation (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  shop_id         uuid not null,
  joint_id        uuid not null,
  cartridge_id    uuid not null,
  amount_ul       integer not null,
  needed_at       timestamptz(3) not null,
  made_at         timestamptz(3) not null,
  made_by         text not null,
  ended_at        timestamptz(3),
  end_kind        text,
  end_reason      text,
  constraint reservation__joint foreign key (organization_id, shop_id, joint_id) references joint (organization_id, shop_id, id),
  constraint reservation__cartridge foreign key (organization_id, cartridge_id) references cartridge (organization_id, id),
  constraint reservation__amount check (amount_ul > 0),
  constraint reservation__end_kind check (end_kind in ('used', 'released', 'died')),
  constraint reservation__end_is_whole check (
    (ended_at is null) = (end_kind is null) and (ended_at is null) = (end_reason is null))
);
create unique index reservation__once_for_a_joint on reservation (joint_id, cartridge_id) where ended_at is null;
create index reservation__open_of_cartridge on reservation (cartridge_id) where ended_at is null;
create index reservation__open_of_shop on reservation (organization_id, shop_id, needed_at) where ended_at is null;
create index reservation__of_joint on reservation (joint_id, ended_at);
call keep_tenancy('reservation', 'select, insert, update');

-- A cartridge is never promised beyond what it holds: whoever promises locks it first, so two cannot both see room.
create function keep_reserved() returns trigger
  language plpgsql
as $$
declare
  held     integer;
  promised bigint;
begin
  select remaining_ul into held from cartridge
   where id = new.cartridge_id and shop_id = new.shop_id and state in ('sealed', 'opened') for no key update;
  select coalesce(sum(amount_ul), 0) into promised from reservation
   where cartridge_id = new.cartridge_id and ended_at is null and id <> new.id;
  if held is null or promised + new.amount_ul > held then
    raise exception 'reservation__within_content: the cartridge does not hold that much for one more'
      using errcode = '23514', constraint = 'reservation__within_content';
  end if;
  return new;
end
$$;
create trigger reservation__keep_reserved before insert on reservation
  for each row execute function keep_reserved();
