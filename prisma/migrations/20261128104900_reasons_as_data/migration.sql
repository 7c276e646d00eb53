-- What the service itself gives as a reason, as data, beside the text as it was written then. Null where a person wrote it,
-- and before.
alter table stock_movement add column said jsonb;
alter table lot add column hold_said jsonb;
alter table lot_hold_event add column said jsonb;
alter table cartridge_quarantine add column said jsonb, add column decision_said jsonb;
alter table booking add column note_said jsonb;
alter table plan add column said jsonb, add column fault_said jsonb;
alter table disposition add column said jsonb;
alter table operation add column name_said jsonb;
