-- How a person reads: language, units and clock are that person's own and not the shop's. Null: as the browser says.
alter table person
  add column language text,
  add column temperature_unit text,
  add column volume_unit text,
  add column length_unit text,
  add column clock text,
  add column first_day integer,
  add constraint person__language check (language in ('en', 'es')),
  add constraint person__temperature_unit check (temperature_unit in ('C', 'F')),
  add constraint person__volume_unit check (volume_unit in ('mL', 'flOz')),
  add constraint person__length_unit check (length_unit in ('mm', 'in')),
  add constraint person__clock check (clock in ('24h', '12h')),
  add constraint person__first_day check (first_day between 1 and 7);
