-- Which thermometer read the air at the joint. Only the one that reads the metal is held against the bay's by it. Bonds from
-- before this have none: a hygrometer of the register, where one is named, was taken to have read it.
alter table bond
  add column air_read_with text,
  add constraint bond__air_read_with check (air_read_with in ('panelThermometer', 'hygrometer', 'another')),
  add constraint bond__air_read_with_its_hygrometer check (air_read_with <> 'hygrometer' or hygrometer_id is not null);
