-- A bake may be booked by the program of the oven; the highest metal temperature is then the one worked out from it.
alter table booking add column bake_program jsonb;
alter table booking add constraint booking__program_is_of_a_bake check (bake_program is null or purpose = 'bake');
