-- The panels were slid into place: the last time. Each time is in the bond's record.
alter table bond add column slid_at timestamptz(3);
alter table bond add column slid_by text;
alter table bond add constraint bond__slid_by_somebody check ((slid_at is null) = (slid_by is null));
alter table bond add constraint bond__slid_after_applied check (slid_at >= applied_at);

-- The panels were moved once the work time had run out: what had begun to cure was torn.
alter table incident drop constraint incident__kind;
alter table incident add constraint incident__kind check (
  kind in ('earlyRelease', 'clampedAfterWorkTime', 'movedAfterWorkTime', 'gateOverridden', 'appliedAgainstRefusal', 'leftWithAdhesive')
);
