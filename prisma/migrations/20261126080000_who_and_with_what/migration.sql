-- Rule 8: who may make which class of joint, and which instrument took a reading.

-- Never changed, only ended: what somebody held when a bond was made can still be read years later.
create table qualification (
  id              uuid primary key default gen_random_uuid(),
  organization_id uuid not null references organization (id),
  person_id       uuid not null,
  safety_class    text not null,
  evidence        text not null,
  issued_on       date not null,
  valid_until     date not null,
  recorded_at     timestamptz(3) not null,
  recorded_by     text not null,
  ended_at        timestamptz(3),
  ended_by        text,
  end_reason      text,
  constraint qualification__of_chain unique (organization_id, id),
  constraint qualification__person foreign key (organization_id, person_id) references person (organization_id, id),
  -- S4 asks for none.
  constraint qualification__safety_class check (safety_class in ('S1', 'S2', 'S3')),
  constraint qualification__days_in_order check (issued_on <= valid_until),
  constraint qualification__end_is_whole check (
    (ended_at is null) = (ended_by is null) and (ended_at is null) = (end_reason is null))
);
create index qualification__of_person on qualification (person_id);
call keep_tenancy('qualification', 'select, insert, update (ended_at, ended_by, end_reason)');

create function end_qualification_once() returns trigger
  language plpgsql
as $$
begin
  if tg_op = 'DELETE' or old.ended_at is not null
     or (to_jsonb(old) - '{ended_at,ended_by,end_reason}'::text[]) is distinct from (to_jsonb(new) - '{ended_at,ended_by,end_reason}'::text[]) then
    raise exception 'qualification is append-only but for its end, once' using errcode = 'CC001';
  end if;
  return new;
end
$$;
create trigger qualification__ends_once before update or delete on qualification
  for each row execute function end_qualification_once();

-- Hand-held instruments; thermometers that hang in a bay are sensors.
create table instrument (
  id               uuid primary key default gen_random_uuid(),
  organization_id  uuid not null references organization (id),
  shop_id          uuid not null,
  kind             text not null,
  name             text not null,
  serial_number    text not null,
  accuracy_c       double precision,
  accuracy_percent double precision,
  calibrated_until date,
  active           boolean not null default true,
  version          integer not null default 1,
  constraint instrument__of_shop unique (organization_id, shop_id, id),
  constraint instrument__name_once unique (shop_id, name),
  constraint instrument__shop foreign key (organization_id, shop_id) references shop (organization_id, id),
  constraint instrument__kind check (kind in ('metalProbe', 'infrared', 'hygrometer')),
  -- A thermometer is off by degrees, a hygrometer by percent of relative humidity.
  constraint instrument__accuracy check (
    (kind = 'hygrometer' and accuracy_percent >= 0 and accuracy_c is null) or
    (kind <> 'hygrometer' and accuracy_c >= 0 and accuracy_percent is null))
);
call keep_tenancy('instrument', 'select, insert, update');

-- As it stood when it was used: a calibration of next year says nothing about a reading of today.
alter table panel_reading add column instrument_id uuid, add column calibrated_until date;
alter table panel_reading add constraint panel_reading__instrument
  foreign key (organization_id, shop_id, instrument_id) references instrument (organization_id, shop_id, id);
alter table bond add column hygrometer_id uuid;
alter table bond add constraint bond__hygrometer
  foreign key (organization_id, shop_id, hygrometer_id) references instrument (organization_id, shop_id, id);
