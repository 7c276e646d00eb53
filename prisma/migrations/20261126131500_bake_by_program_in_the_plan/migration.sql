-- A bake of the plan may know the program of the oven: its minutes and highest metal temperature are then worked out from it.
alter table operation
  add column bake_program jsonb,
  add constraint operation__program_is_of_a_bake check (bake_program is null or (kind = 'bake' and jsonb_typeof(bake_program) = 'object'));
