-- Retention: how long what is personal is kept after an incident. The periods are numbers of our own calibration that a network sets; what goes is
-- shown first (dry run) and then done by the worker, household by household.

alter table calibration_value drop constraint calibration_value_library_check;
alter table calibration_value add constraint calibration_value_library_check check (library in ('people', 'climate', 'alarms', 'planning', 'care', 'sight', 'retention', 'messages'));

-- Since when an incident is closed, by the time of the work; an incident that is opened again loses it.
alter table incident add column closed_at timestamptz;
alter table incident no force row level security;
update incident set closed_at = updated_at where state = 'closed';
alter table incident force row level security;
alter table incident add constraint incident_closed_at check ((state = 'closed') = (closed_at is not null));
create function incident_closed_since() returns trigger language plpgsql as $$
begin
  if new.state <> 'closed' then new.closed_at := null;
  elsif tg_op = 'INSERT' or old.state <> 'closed' then new.closed_at := new.updated_at;
  else new.closed_at := old.closed_at;
  end if;
  return new;
end
$$;
create trigger incident_closed_since before insert or update on incident for each row execute function incident_closed_since();

create table retention_run (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  state text collate "C" not null check (state in ('running', 'done', 'stopped')),
  -- The lead who decided it, and the key that asked.
  person_id uuid not null,
  principal_id uuid not null,
  -- The moment by which it is judged what is due.
  as_of timestamptz not null,
  -- Number of the newest decision about our own numbers, and the days that were in force by it.
  policy_revision integer not null check (policy_revision >= 0),
  policy jsonb not null,
  -- How far it is: the last household that was looked at.
  after_household_id uuid,
  looked_at integer not null default 0,
  touched integer not null default 0,
  erased integer not null default 0,
  -- How many things of each kind have gone; numbers alone.
  gone jsonb not null default '{}',
  ended_at timestamptz,
  primary key (network_id, id),
  check ((state = 'running') = (ended_at is null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id)
);
create index retention_run_by_incident on retention_run (network_id, incident_id, id);

-- The kinds that stand so far and this one: other migrations of the same days add theirs.
do $$
declare
  kinds text;
begin
  select pg_get_expr(conbin, conrelid) into strict kinds from pg_constraint where conrelid = 'outbox'::regclass and conname = 'outbox_kind_check';
  alter table outbox drop constraint outbox_kind_check;
  execute format('alter table outbox add constraint outbox_kind_check check (%s or kind in (''retention.run''))', kinds);
end
$$;

-- The policies of the first migration, for the new table.
do $$
declare
  name text;
begin
  foreach name in array array['retention_run'] loop
    execute format('alter table %I enable row level security', name);
    execute format('alter table %I force row level security', name);
    execute format($p$create policy of_network on %I
      using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
      with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid)$p$, name);
    execute format($p$create policy of_incident on %I as restrictive
      using (nullif(current_setting('app.incident_id', true), '') is null
             or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid)$p$, name);
    execute format('alter table %I owner to wl_owner', name);
    execute format('grant select, insert, update on %I to wl_app', name);
  end loop;
end
$$;
