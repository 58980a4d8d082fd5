-- What people need to be given work that suits them, and what stays on record when somebody did other work.

-- Until when medical fitness and fit test for a tight respirator are valid: a date, never a finding.
alter table person add column respirator_fit_until date;

-- Who did the step together with the person who reports it; checked in code, as no key can stand on an array.
alter table step_result
  add column with_person_ids uuid[] not null default '{}',
  add column lifting_aid boolean not null default false;
-- What somebody has worked in the last hour is asked for when it is hot.
create index step_result_by_end on step_result (network_id, incident_id, finished_at);

-- Steps that were done by somebody who should not do them: kept with the reasons, and with the lead who answers for it.
-- Without a lead only where something was found at the table, because a finding is never refused.
create table unsuited_step (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  step_result_id uuid not null,
  item_id uuid not null,
  -- [{ personId, reasons: [{ code, text, source }], instead }]
  people jsonb not null,
  decided_by uuid,
  reason text check (length(reason) between 3 and 2000),
  recorded_at timestamptz not null,
  primary key (network_id, id),
  check ((decided_by is null) = (reason is null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, step_result_id) references step_result (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, decided_by) references person (network_id, id)
);
create index unsuited_step_by_incident on unsuited_step (network_id, incident_id, id);
create trigger unsuited_step_append_only before update or delete on unsuited_step for each row execute function refuse_change();
create trigger unsuited_step_no_truncate before truncate on unsuited_step for each statement execute function refuse_change();

-- The part of a lot may take less than a whole unit; both parts together still take what the lot took.
alter table item drop constraint item_area_dm2_check, drop constraint item_volume_l_check, drop constraint item_dry_mass_g_check;
alter table item
  add constraint item_area_dm2_check check (area_dm2 >= 0),
  add constraint item_volume_l_check check (volume_l >= 0),
  add constraint item_dry_mass_g_check check (dry_mass_g >= 0);

-- The policies of the first migration, for the new table.
alter table unsuited_step enable row level security;
alter table unsuited_step force row level security;
create policy of_network on unsuited_step
  using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
  with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid);
create policy of_incident on unsuited_step as restrictive
  using (nullif(current_setting('app.incident_id', true), '') is null
         or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid);
alter table unsuited_step owner to wl_owner;
grant select, insert on unsuited_step to wl_app;
