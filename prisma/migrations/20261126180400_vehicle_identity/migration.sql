-- What tells one car from another, beside what people call it: hashed with the first entry of a bond's record.
alter table repair_order add column vin text, add column plate text;
-- ISO 3779: up to 17 characters, none of I, O and Q. Older vehicles have shorter ones.
alter table repair_order add constraint repair_order__vin check (vin ~ '^[A-HJ-NPR-Z0-9]{5,17}$');
alter table repair_order add constraint repair_order__plate check (plate <> '' and length(plate) <= 20);

-- Which kinds of entries there are is said in the contract. The database only asks for a name: a record must take a new
-- kind of event without its table being rebuilt, and an entry of a kind that a program doesn't know is still chained.
alter table bond_record_entry drop constraint bond_record_entry__kind;
alter table bond_record_entry add constraint bond_record_entry__kind check (kind ~ '^[a-z][a-zA-Z]{2,39}$');
