-- What changes would save, reckoned beside the plan, and what a plan was made from, so that it can be explained.

create table plan_what_if (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  state text collate "C" not null check (state in ('queued', 'running', 'done', 'failed')),
  -- null: what is usually asked for where the plan is short.
  asked jsonb check (jsonb_typeof(asked) = 'array'),
  together boolean not null,
  -- The item that it is about, if any.
  item_id uuid,
  requested_at timestamptz not null,
  started_at timestamptz,
  finished_at timestamptz,
  plans_done integer not null default 0 check (plans_done >= 0),
  plans_in_all integer check (plans_in_all >= plans_done),
  result jsonb,
  failure text,
  failure_values jsonb,
  primary key (network_id, id),
  check ((state = 'done') = (result is not null)),
  check ((state = 'failed') = (failure is not null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id)
);
create index plan_what_if_by_incident on plan_what_if (network_id, incident_id, requested_at desc, id desc);
create index plan_what_if_about_item on plan_what_if (network_id, item_id, requested_at desc) where item_id is not null;

-- Problem and plan of a revision as one compressed document; kept as long as its assignments.
create table plan_ground (
  network_id uuid not null,
  incident_id uuid not null,
  revision_id uuid not null,
  document bytea not null,
  primary key (network_id, revision_id),
  foreign key (network_id, revision_id) references plan_revision (network_id, id)
);

alter table outbox drop constraint outbox_kind_check;
alter table outbox add constraint outbox_kind_check check (kind in ('plan.requested', 'plan.what_if', 'intake_import.submitted', 'rule_book.chosen', 'climate.readings', 'climate.tick'));

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['plan_what_if', 'plan_ground'] loop
    execute format('alter table %I enable row level security', name);
    execute format('alter table %I force row level security', name);
    execute format($p$create policy of_network on %I
      using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
      with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid)$p$, name);
    execute format($p$create policy of_incident on %I as restrictive
      using (nullif(current_setting('app.incident_id', true), '') is null
             or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid)$p$, name);
    execute format('alter table %I owner to wl_owner', name);
  end loop;
end
$$;
-- Both can be reckoned again, so what is old goes.
grant select, insert, update, delete on plan_what_if, plan_ground to wl_app;
