-- A plan is made from the operations of each vehicle as they are; when somebody changes them, the plan that holds has the vehicle
-- as it was. Counted, not timed: what is changed while the planner reads is told as changed.
alter table repair_order
  add column work_version integer not null default 1;

-- By repair order that is in it. Plans from before know nothing of it, and say nothing.
alter table plan
  add column work_versions jsonb not null default '{}',
  add constraint plan__work_versions_by_order check (jsonb_typeof(work_versions) = 'object');
