-- Who put the adhesive on, as a person and not by name alone: of their running bonds a technician is told first. What the
-- record says, with the name as it was, stands beside it. Null where a program did it, or two of that name were in the chain.
alter table bond add column applied_by_id uuid;
alter table bond add constraint bond__applied_by
  foreign key (organization_id, applied_by_id) references person (organization_id, id);
create index bond__of_person on bond (applied_by_id) where released_at is null and abandoned_at is null;

update bond set applied_by_id = person.id
  from person
 where person.organization_id = bond.organization_id and person.name = bond.applied_by
   and not exists (
     select from person other
      where other.organization_id = person.organization_id and other.name = person.name and other.id <> person.id
   );
