-- Of a bond that was made in no bay: since when the air of its bay counts, the instant at which somebody said where the
-- vehicle stands. Null where that was said with the application.
alter table bond add column bay_from timestamptz(3);
