-- Why a lot is held, and how it was disposed of. A lot that is scrapped stays on hold for good: what is still on its way,
-- or turns up behind a cabinet, is not used either.
alter table lot add column hold_kind text;
update lot set hold_kind = 'person' where hold_reason is not null;
alter table lot drop constraint lot__hold_is_whole;
alter table lot
  add constraint lot__hold_kind check (hold_kind in ('person', 'excursion', 'scrapped')),
  add constraint lot__hold_is_whole check (
    (hold_reason is null) = (hold_since is null) and (hold_reason is null) = (hold_by is null)
    and (hold_reason is null) = (hold_kind is null));
alter table lot_hold_event drop constraint lot_hold_event__kind;
alter table lot_hold_event add constraint lot_hold_event__kind check (kind in ('held', 'ended', 'scrapped'));
