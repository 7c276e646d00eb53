-- The chain of the transaction is looked up once a statement, not once a row: inside a subquery that names no column the
-- planner asks for it beforehand. A scan of readings is the quicker for it.
create or replace procedure keep_tenancy(target regclass, privileges text)
  language plpgsql
as $$
begin
  execute format('alter table %s enable row level security', target);
  execute format(
    'create policy tenancy on %s to clampclock_app using (organization_id = (select current_organization())) with check (organization_id = (select current_organization()))',
    target);
  execute format('grant %s on %s to clampclock_app', privileges, target);
end
$$;

do $$
declare
  known record;
begin
  for known in
    select c.oid::regclass as target from pg_policy p join pg_class c on c.oid = p.polrelid
     where p.polname = 'tenancy' and c.relnamespace = current_schema()::regnamespace
  loop
    execute format(
      'alter policy tenancy on %s using (organization_id = (select current_organization())) with check (organization_id = (select current_organization()))',
      known.target);
  end loop;
end
$$;
