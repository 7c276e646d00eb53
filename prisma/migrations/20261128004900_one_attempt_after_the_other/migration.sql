-- Of a further attempt at a joint: when it was entered that the one before was over. Until then the program knew the other
-- adhesive to be on the joint, so that nothing said of the past may count for this one.
alter table bond add column counts_not_before timestamptz(3);
alter table bond add constraint bond__first_counts_at_once check (attempt > 1 or counts_not_before is null);
