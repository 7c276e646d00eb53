-- Photos and notes of a vehicle, of a joint or of one attempt at it (a bond). A photo's bytes are here, and not beside the
-- database, so that tenancy, backups and the record's hash chain hold for them as for every row.
create table attachment (
  id                uuid primary key default gen_random_uuid(),
  organization_id   uuid not null references organization (id),
  shop_id           uuid not null,
  repair_order_id   uuid not null,
  -- What it is of: the vehicle where both are null, the joint, or that attempt at the joint.
  joint_id          uuid,
  bond_id           uuid,
  kind              text not null,
  -- The caption of a photo, or the note.
  text              text not null,
  media_type        text,
  width             integer,
  height            integer,
  bytes             integer,
  sha256            text,
  content           bytea,
  taken_at          timestamptz(3),
  at                timestamptz(3) not null,
  recorded_by       text not null,
  recorded_by_id    uuid not null,
  withdrawn_at      timestamptz(3),
  withdrawn_by      text,
  withdrawn_by_id   uuid,
  withdrawal_reason text,
  constraint attachment__of_shop unique (organization_id, shop_id, id),
  constraint attachment__repair_order foreign key (organization_id, shop_id, repair_order_id) references repair_order (organization_id, shop_id, id),
  constraint attachment__joint foreign key (organization_id, shop_id, joint_id) references joint (organization_id, shop_id, id),
  constraint attachment__bond foreign key (organization_id, shop_id, bond_id) references bond (organization_id, shop_id, id),
  constraint attachment__bond_of_a_joint check (bond_id is null or joint_id is not null),
  constraint attachment__kind check (kind in ('photo', 'note')),
  constraint attachment__note_says_something check (kind <> 'note' or text <> ''),
  constraint attachment__photo_is_whole check (
    num_nonnulls(media_type, width, height, bytes, sha256, content) = case kind when 'photo' then 6 else 0 end
    and (kind = 'photo' or taken_at is null)),
  constraint attachment__media_type check (media_type in ('image/jpeg', 'image/png', 'image/webp')),
  constraint attachment__pixels check (width > 0 and height > 0),
  -- 400 kB, 1 kB = 1000 B, and what keeps a JPEG upright.
  constraint attachment__size check (bytes = octet_length(content) and bytes between 1 and 400100),
  constraint attachment__hash check (sha256 = encode(sha256(content), 'hex')),
  constraint attachment__withdrawal_is_whole check (
    num_nonnulls(withdrawn_at, withdrawn_by, withdrawn_by_id, withdrawal_reason) in (0, 4)
    and withdrawal_reason <> '')
);
-- What it holds is compressed already.
alter table attachment alter column content set storage external;
create index attachment__of_repair_order on attachment (repair_order_id, at);
create index attachment__of_joint on attachment (joint_id, at);
create index attachment__of_bond on attachment (bond_id, at);
call keep_tenancy('attachment', 'select, insert, update (withdrawn_at, withdrawn_by, withdrawn_by_id, withdrawal_reason)');
call mark_changes('attachment', 'mark_change_of_shop');

create function keep_attachment() returns trigger
  language plpgsql
as $$
begin
  if tg_op = 'DELETE' or old.withdrawn_at is not null
     or (to_jsonb(old) - '{withdrawn_at,withdrawn_by,withdrawn_by_id,withdrawal_reason}'::text[])
        is distinct from (to_jsonb(new) - '{withdrawn_at,withdrawn_by,withdrawn_by_id,withdrawal_reason}'::text[]) then
    raise exception 'attachment is append-only but for its withdrawal: withdraw it, and add the right one' using errcode = 'CC001';
  end if;
  return new;
end
$$;
create trigger attachment__append_only before update or delete on attachment
  for each row execute function keep_attachment();
