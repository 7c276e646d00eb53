-- What an alert says is kept as data, a code with its parameters, and put into words for each reader. What was written down
-- before is said as it was written; what still stands is told anew, as data, at the next look.
alter table alert
  add column code text,
  add column params jsonb;

update alert set code = 'alert.asWritten', params = jsonb_build_object('text', message);

alter table alert
  alter column code set not null,
  alter column params set not null,
  drop column message;

-- Beside the reason as it was written into the record: what the service itself says, as data. Null where a person wrote it.
alter table incident add column said jsonb;
