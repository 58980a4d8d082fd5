-- Custody that two sides record, things that are looked for, records that prove to be one thing; shelves and vehicles; containers with a
-- record of their own; and every scan that moved nothing, as evidence.

alter table item drop constraint item_stage_check;
alter table item add constraint item_stage_check check (stage in
  ('waiting', 'in-work', 'drying', 'held-wet', 'held-frozen', 'referred-out', 'released', 'handed-back', 'merged'));
-- Projection of the custody chain, as keeper and stage are.
alter table item
  add column hand_over_id uuid,
  add column hand_over_to_kind text collate "C",
  add column hand_over_to_id uuid,
  add column disputed boolean not null default false,
  add column missing boolean not null default false,
  -- When a person or a scan last met it; custody events and sightings move it on, never back.
  add column last_seen_at timestamptz,
  add constraint item_hand_over_whole check ((hand_over_id is null) = (hand_over_to_kind is null) and (hand_over_id is null) = (hand_over_to_id is null));
update item set last_seen_at = updated_at;
alter table item alter column last_seen_at set not null, alter column last_seen_at set default now();
create index item_open_by_sight on item (network_id, incident_id, last_seen_at, id)
  where stage not in ('released', 'handed-back', 'merged');
create index item_with_matter on item (network_id, incident_id, id)
  where hand_over_id is not null or disputed or missing;
drop index item_open_by_start;
create index item_open_by_start on item (network_id, incident_id, start_by, id)
  where stage not in ('released', 'handed-back', 'merged');

-- A numbered place of storage at a site.
create table shelf (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  zone_id uuid not null,
  code text collate "C" not null,
  name text not null,
  -- Litres that it takes; null where nobody measured it.
  volume_l integer check (volume_l > 0),
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, site_id, code),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, site_id) references site (network_id, id),
  foreign key (network_id, zone_id) references zone (network_id, id)
);

-- What carries things between sites, specialists and families.
create table vehicle (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  code text collate "C" not null,
  name text not null,
  volume_l integer check (volume_l > 0),
  -- What it may carry, kg; null where nobody said.
  max_load_kg integer check (max_load_kg > 0),
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, incident_id, code),
  foreign key (network_id, incident_id) references incident (network_id, id)
);

-- Containers are kept too: one keeper, a gapless chained record. Those from before have no record yet (seq 0).
alter table container
  add column seq integer not null default 0,
  add column head_hash text collate "C" not null default '0000000000000000000000000000000000000000000000000000000000000000',
  add column keeper_kind text collate "C",
  add column keeper_id uuid,
  add column hand_over_id uuid,
  add column hand_over_to_kind text collate "C",
  add column hand_over_to_id uuid,
  add column disputed boolean not null default false,
  add column missing boolean not null default false,
  add column last_seen_at timestamptz not null default now(),
  add column version integer not null default 1,
  add constraint container_kept check ((seq = 0) = (keeper_kind is null) and (keeper_kind is null) = (keeper_id is null)),
  add constraint container_not_in_itself check (keeper_kind is distinct from 'container' or keeper_id is distinct from id);
create index container_by_keeper on container (network_id, keeper_kind, keeper_id);

create table container_event (
  network_id uuid not null,
  incident_id uuid not null,
  container_id uuid not null,
  seq integer not null check (seq > 0),
  command_id uuid not null,
  kind text collate "C" not null,
  from_kind text collate "C",
  from_id uuid,
  to_kind text collate "C" not null,
  to_id uuid not null,
  stage text collate "C" not null,
  actor_id uuid not null,
  occurred_at timestamptz not null,
  recorded_at timestamptz not null,
  refs jsonb not null,
  corrects_seq integer,
  corrects_reason text,
  prev_hash text collate "C" not null,
  hash text collate "C" not null,
  form integer not null,
  primary key (network_id, container_id, seq),
  foreign key (network_id, container_id) references container (network_id, id)
);

-- What was scanned or seen and did not move anything: the same place again, a late report, a claim against the record.
create table sighting (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid,
  container_id uuid,
  place_kind text collate "C" not null,
  place_id uuid not null,
  -- Of the device, as it said; and ours.
  seen_at timestamptz not null,
  recorded_at timestamptz not null,
  person_id uuid,
  actor_id uuid not null,
  verdict text collate "C" not null check (verdict in ('seen-again', 'seen-late', 'claims-elsewhere', 'left-the-network')),
  -- The last event of the record when it was reported.
  at_seq integer not null,
  note text not null default '',
  primary key (network_id, id),
  check ((item_id is null) <> (container_id is null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, container_id) references container (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id)
);
create index sighting_by_item on sighting (network_id, item_id, recorded_at) where item_id is not null;
create index sighting_by_container on sighting (network_id, container_id, recorded_at) where container_id is not null;

create trigger container_event_append_only before update or delete on container_event for each row execute function refuse_change();
create trigger container_event_no_truncate before truncate on container_event for each statement execute function refuse_change();
create trigger sighting_append_only before update or delete on sighting for each row execute function refuse_change();
create trigger sighting_no_truncate before truncate on sighting for each statement execute function refuse_change();

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['shelf', 'vehicle', 'container_event', 'sighting'] loop
    execute format('alter table %I enable row level security', name);
    execute format('alter table %I force row level security', name);
    execute format($p$create policy of_network on %I
      using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
      with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid)$p$, name);
    execute format($p$create policy of_incident on %I as restrictive
      using (nullif(current_setting('app.incident_id', true), '') is null
             or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid)$p$, name);
    execute format('alter table %I owner to wl_owner', name);
    execute format('grant select, insert on %I to wl_app', name);
  end loop;
end
$$;
grant update, delete on shelf, vehicle to wl_app;
