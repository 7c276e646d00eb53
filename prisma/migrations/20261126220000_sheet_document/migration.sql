-- The maker's own document, kept with the revision that was typed from it. A wrong one is followed by the right one.
create table product_sheet_document (
  id               uuid primary key default gen_random_uuid(),
  organization_id  uuid not null references organization (id),
  sheet_id         uuid not null,
  name             text not null,
  pdf              bytea not null,
  sha256           text not null,
  bytes            integer not null,
  recorded_at      timestamptz(3) not null,
  recorded_by_name text not null,
  constraint product_sheet_document__sheet foreign key (organization_id, sheet_id) references product_sheet (organization_id, id),
  constraint product_sheet_document__size check (bytes = octet_length(pdf) and bytes between 1 and 5242880),
  constraint product_sheet_document__hash check (sha256 = encode(sha256(pdf), 'hex')),
  constraint product_sheet_document__pdf check (substring(pdf from 1 for 5) = '\x255044462d'::bytea)
);
create index product_sheet_document__of_sheet on product_sheet_document (sheet_id, recorded_at);
call keep_tenancy('product_sheet_document', 'select, insert');
create trigger product_sheet_document__append_only before update or delete on product_sheet_document
  for each row execute function refuse_change();
