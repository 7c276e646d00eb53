-- Why the service gave a reservation up, as data, beside the reason as it was written. Null where a person wrote it, and before.
alter table reservation add column end_said jsonb;
