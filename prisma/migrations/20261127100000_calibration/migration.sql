-- Numbers of our own calibration that a network has set for itself, such as the most hours on shift or how fast a rack dries.

-- Each row is one decision about one number. Of each number the highest decision is in force; nothing is changed or removed.
create table calibration_value (
  network_id uuid not null,
  id uuid not null,
  -- From 1 without gaps over all numbers of the network: a decision names the one it was made after (If-Match), so that numbers
  -- which bound each other are checked together.
  number integer not null check (number >= 1),
  library text collate "C" not null check (library in ('people', 'climate')),
  key text collate "C" not null check (length(key) between 1 and 60),
  -- In the unit of the table of the library; null for its default again.
  value double precision check (value > '-Infinity' and value < 'Infinity'),
  reason text not null check (length(reason) between 3 and 2000),
  -- The lead who answers for it.
  decided_by uuid not null,
  decided_at timestamptz not null,
  -- The key that sent it.
  principal_id uuid not null,
  primary key (network_id, number),
  unique (network_id, id),
  foreign key (network_id) references network (network_id),
  foreign key (network_id, decided_by) references person (network_id, id)
);
create index calibration_value_by_key on calibration_value (network_id, library, key, number desc);
create trigger calibration_value_append_only before update or delete on calibration_value for each row execute function refuse_change();
create trigger calibration_value_no_truncate before truncate on calibration_value for each statement execute function refuse_change();

-- Looks are judged too: a colour test that is not complete leaves no step result that could name its step.
alter table unsuited_step
  add column step text collate "C",
  alter column step_result_id drop not null;
alter table unsuited_step disable trigger unsuited_step_append_only;
-- The owner is bound by the policies too, so they are lifted for this statement.
alter table unsuited_step no force row level security;
alter table step_result no force row level security;
update unsuited_step u set step = s.step from step_result s where s.network_id = u.network_id and s.id = u.step_result_id;
alter table step_result force row level security;
alter table unsuited_step force row level security;
alter table unsuited_step enable trigger unsuited_step_append_only;
alter table unsuited_step alter column step set not null;

-- Rests that heat asks for do not count as worked.
alter table step_result add column rest_minutes integer not null default 0 check (rest_minutes between 0 and 1440);

-- The policies of the first migration, for the new table; it belongs to no incident.
alter table calibration_value enable row level security;
alter table calibration_value force row level security;
create policy of_network on calibration_value
  using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
  with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid);
alter table calibration_value owner to wl_owner;
grant select, insert on calibration_value to wl_app;
