-- One range for temperatures, as the contract and the packages have it (PLAUSIBLE_TEMPERATURE_C): what is outside cannot be
-- computed with. Not validated: what is on record already stays, and reads as not to be computed.
alter table temperature_reading drop constraint temperature_reading__plausible;
alter table temperature_reading add constraint temperature_reading__plausible check (temperature_c between -60 and 300) not valid;
alter table panel_reading
  add constraint panel_reading__plausible check (temperature_c between -60 and 300) not valid,
  add constraint panel_reading__accuracy check (accuracy_c between 0 and 20) not valid;
alter table sensor drop constraint sensor__accuracy;
alter table sensor add constraint sensor__accuracy check (accuracy_c between 0 and 20) not valid;
alter table bond add constraint bond__air_plausible check (air_temperature_c between -40 and 60) not valid;
alter table repair_order add constraint repair_order__oven_limit check (oven_limit_c between -60 and 300) not valid;
alter table booking
  add constraint booking__metal_plausible check (highest_metal_c between -60 and 300 and metal_start_c between -60 and 300) not valid;
alter table operation add constraint operation__metal_plausible check (highest_metal_c between -60 and 300) not valid;
alter table product add constraint product__temperatures_plausible check (
  storage_min_c between -60 and 300 and storage_max_c between -60 and 300 and label_storage_c between -60 and 300) not valid;
alter table product_sheet add constraint product_sheet__temperatures_plausible check (
  application_min_c between -60 and 300 and application_max_c between -60 and 300 and lowest_cure_c between -60 and 300
  and highest_cure_c between -60 and 300 and service_min_c between -60 and 300 and service_max_c between -60 and 300) not valid;
alter table product_sheet_point
  add constraint product_sheet_point__plausible check (temperature_c between -60 and 300) not valid;
