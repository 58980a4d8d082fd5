-- Plans are stored in the order in which their rows were read: a run that was overtaken by the plan of a later one ends with that
-- plan instead of storing its own or being done again.

-- The latest epoch whose plan is stored.
alter table plan_epoch add column stored_epoch bigint not null default 0;
-- The epoch that the latest begin of a run took: a plan stored with a later one has read what the run was asked for.
alter table plan_run add column epoch bigint;
