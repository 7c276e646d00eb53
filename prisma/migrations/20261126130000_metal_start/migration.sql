-- How warm the metal was said to be when the vehicle goes to the oven; null: as it is expected to be then.
alter table booking add column metal_start_c double precision;
alter table booking add constraint booking__metal_start_is_of_a_program check (metal_start_c is null or bake_program is not null);
