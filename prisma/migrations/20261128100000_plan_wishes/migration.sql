-- What people want of the plan, how a plan comes into force, and what is done together.

-- By hand, a new plan is a proposal until somebody publishes it; work follows what is published.
alter table incident add column plan_publishing text collate "C" not null default 'automatic' check (plan_publishing in ('automatic', 'by-hand'));

alter table plan_revision
  add column published_at timestamptz,
  -- null for what was published by itself.
  add column published_by uuid,
  add check (published_by is null or published_at is not null),
  add foreign key (network_id, published_by) references person (network_id, id);
-- So far every plan was in force as soon as it was made. The owner is bound by the policies too, so they are lifted for this
-- statement.
alter table plan_revision no force row level security;
update plan_revision set published_at = created_at;
alter table plan_revision force row level security;
create index plan_revision_published on plan_revision (network_id, incident_id, number) where published_at is not null;

alter table plan_assignment
  -- Place of the chosen way among those that were open to the thing.
  add column option_index integer,
  -- Steps of one revision with the same name are done together.
  add column batch_id text collate "C",
  -- How the thing stands in this plan, and what it weighs; null in plans from before this was kept.
  add column standing text collate "C" check (standing in ('in-time', 'late', 'look-only', 'follow-up')),
  add column weight integer;
create index plan_assignment_together on plan_assignment (network_id, revision_id, batch_id) where batch_id is not null;

-- How far the planner has come with a run.
alter table plan_run
  add column rounds_done integer,
  add column rounds_in_all integer;

-- What a coordinator or the lead of a station wants of the plan. Kept for ever: it ends when it is withdrawn, or when the planner
-- finds that it cannot hold any more and says why.
create table plan_wish (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  kind text collate "C" not null check (kind in ('pin', 'first', 'not-before', 'bar-station', 'bar-way')),
  -- The station whose lead wants it; null for a coordinator.
  asked_at_station_id uuid,
  station_id uuid,
  step text collate "C",
  disposition text collate "C",
  not_before timestamptz,
  -- The steps just as the plan had them.
  pinned jsonb,
  reason text not null check (length(reason) between 3 and 2000),
  wished_by uuid not null,
  wished_at timestamptz not null,
  withdrawn_at timestamptz,
  withdrawn_by uuid,
  withdrawn_reason text check (length(withdrawn_reason) between 3 and 2000),
  lapsed_at timestamptz,
  lapsed_why text,
  lapsed_why_values jsonb,
  primary key (network_id, id),
  check ((kind = 'bar-station') = (station_id is not null)),
  check (step is null or kind = 'bar-station'),
  check ((kind = 'bar-way') = (disposition is not null)),
  check ((kind = 'not-before') = (not_before is not null)),
  check ((kind = 'pin') = (pinned is not null)),
  check ((withdrawn_at is null) = (withdrawn_by is null) and (withdrawn_at is null) = (withdrawn_reason is null)),
  check ((lapsed_at is null) = (lapsed_why is null)),
  check (withdrawn_at is null or lapsed_at is null),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, asked_at_station_id) references station (network_id, id),
  foreign key (network_id, station_id) references station (network_id, id),
  foreign key (network_id, wished_by) references person (network_id, id),
  foreign key (network_id, withdrawn_by) references person (network_id, id)
);
create index plan_wish_by_incident on plan_wish (network_id, incident_id, id);
create index plan_wish_by_item on plan_wish (network_id, item_id, id);
-- The same wish stands once.
create unique index plan_wish_standing on plan_wish (network_id, item_id, kind, coalesce(station_id, '00000000-0000-0000-0000-000000000000'), coalesce(step, ''), coalesce(disposition, ''))
  where withdrawn_at is null and lapsed_at is null;
-- What was wished stays as it was said, and how it ended as well.
create function keep_plan_wish() returns trigger language plpgsql as $$
begin
  if old.withdrawn_at is not null or old.lapsed_at is not null
     or (new.incident_id, new.id, new.item_id, new.kind, new.reason, new.wished_by, new.wished_at) is distinct from (old.incident_id, old.id, old.item_id, old.kind, old.reason, old.wished_by, old.wished_at)
     or (new.asked_at_station_id, new.station_id, new.step, new.disposition, new.not_before, new.pinned) is distinct from (old.asked_at_station_id, old.station_id, old.step, old.disposition, old.not_before, old.pinned) then
    raise exception 'only the end of a wish is written later' using errcode = 'restrict_violation';
  end if;
  return new;
end
$$;
create trigger plan_wish_keeps_words before update on plan_wish for each row execute function keep_plan_wish();
create trigger plan_wish_no_truncate before truncate on plan_wish for each statement execute function refuse_change();

-- The policies of the first migration, for the new table.
alter table plan_wish enable row level security;
alter table plan_wish force row level security;
create policy of_network on plan_wish
  using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
  with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid);
create policy of_incident on plan_wish as restrictive
  using (nullif(current_setting('app.incident_id', true), '') is null
         or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid);
alter table plan_wish owner to wl_owner;
grant select, insert, update on plan_wish to wl_app;
