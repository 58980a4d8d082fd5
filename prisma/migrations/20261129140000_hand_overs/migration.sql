-- Hand-overs that giver and receiver both record; manifests of vehicles and containers, with what differs as named exceptions.

create table hand_over (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  from_kind text collate "C" not null,
  from_id uuid not null,
  to_kind text collate "C" not null,
  to_id uuid not null,
  giver_id uuid not null,
  reason text not null default '',
  state text collate "C" not null check (state in ('open', 'accepted', 'declined', 'withdrawn', 'expired')),
  offered_at timestamptz not null,
  expires_at timestamptz not null check (expires_at > offered_at),
  -- When it was answered, by whom (null when time answered), and with what words.
  ended_at timestamptz,
  ended_by uuid,
  ended_note text not null default '',
  version integer not null default 1,
  primary key (network_id, id),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, giver_id) references person (network_id, id),
  foreign key (network_id, ended_by) references person (network_id, id),
  check ((state = 'open') = (ended_at is null))
);
create index hand_over_by_state on hand_over (network_id, incident_id, (state <> 'open'), id);

create table hand_over_line (
  network_id uuid not null,
  incident_id uuid not null,
  hand_over_id uuid not null,
  line_no integer not null check (line_no > 0),
  item_id uuid,
  container_id uuid,
  -- What was inside when it was offered: items of a container, itself not counted; null for an item.
  items_inside integer check (items_inside >= 0),
  state text collate "C" not null check (state in ('offered', 'accepted', 'excepted', 'declined', 'withdrawn', 'expired')),
  exception text collate "C" check (exception in ('not-received', 'damaged', 'wrong-thing', 'no-room', 'other')),
  note text not null default '',
  primary key (network_id, hand_over_id, line_no),
  check ((item_id is null) <> (container_id is null)),
  check ((item_id is null) = (items_inside is not null)),
  check ((state = 'excepted') = (exception is not null)),
  foreign key (network_id, hand_over_id) references hand_over (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, container_id) references container (network_id, id)
);
-- That a thing is in one open offer at a time is kept by its own record (`hand_over_id`): a correction may answer a line before the receiver does.

create table manifest (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  carrier_kind text collate "C" not null check (carrier_kind in ('vehicle', 'container')),
  carrier_id uuid not null,
  from_site_id uuid not null,
  to_site_id uuid not null,
  -- Who answers for it until somebody else is named.
  person_id uuid not null,
  state text collate "C" not null check (state in ('loading', 'departed', 'arrived')),
  created_at timestamptz not null,
  departed_at timestamptz,
  departed_by uuid,
  arrived_at timestamptz,
  arrived_by uuid,
  version integer not null default 1,
  primary key (network_id, id),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, from_site_id) references site (network_id, id),
  foreign key (network_id, to_site_id) references site (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id),
  foreign key (network_id, departed_by) references person (network_id, id),
  foreign key (network_id, arrived_by) references person (network_id, id),
  check ((state = 'loading') = (departed_at is null) and (departed_at is null) = (departed_by is null)),
  check ((state = 'arrived') = (arrived_at is not null) and (arrived_at is null) = (arrived_by is null))
);
create index manifest_by_incident on manifest (network_id, incident_id, id);
-- A carrier is loaded for one departure at a time.
create unique index manifest_loading on manifest (network_id, carrier_kind, carrier_id) where state = 'loading';

create table manifest_line (
  network_id uuid not null,
  incident_id uuid not null,
  manifest_id uuid not null,
  item_id uuid,
  container_id uuid,
  -- One of the two, for the key.
  thing_id uuid not null generated always as (coalesce(item_id, container_id)) stored,
  expected boolean not null,
  loaded_at timestamptz,
  loaded_by uuid,
  unloaded_at timestamptz,
  unloaded_by uuid,
  primary key (network_id, manifest_id, thing_id),
  check ((item_id is null) <> (container_id is null)),
  check ((loaded_at is null) = (loaded_by is null) and (unloaded_at is null) = (unloaded_by is null)),
  foreign key (network_id, manifest_id) references manifest (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, container_id) references container (network_id, id),
  foreign key (network_id, loaded_by) references person (network_id, id),
  foreign key (network_id, unloaded_by) references person (network_id, id)
);

-- What differs: named, with somebody who answers for it and a time from which it is counted.
create table manifest_exception (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  manifest_id uuid not null,
  item_id uuid,
  container_id uuid,
  kind text collate "C" not null check (kind in ('not-loaded', 'not-expected', 'missing', 'extra')),
  reason text not null,
  owner_id uuid not null,
  opened_at timestamptz not null,
  settled_at timestamptz,
  settled_by uuid,
  settlement text not null default '',
  primary key (network_id, id),
  check ((item_id is null) <> (container_id is null)),
  check ((settled_at is null) = (settled_by is null)),
  foreign key (network_id, manifest_id) references manifest (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, container_id) references container (network_id, id),
  foreign key (network_id, owner_id) references person (network_id, id),
  foreign key (network_id, settled_by) references person (network_id, id)
);
create index manifest_exception_by_age on manifest_exception (network_id, incident_id, (settled_at is not null), id);
create index manifest_exception_by_manifest on manifest_exception (network_id, manifest_id, id);

alter table outbox drop constraint outbox_kind_check;
alter table outbox add constraint outbox_kind_check check (kind in ('plan.requested', 'plan.what_if', 'intake_import.submitted', 'rule_book.chosen', 'climate.readings', 'climate.tick', 'custody.root', 'hand_over.due'));

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['hand_over', 'hand_over_line', 'manifest', 'manifest_line', 'manifest_exception'] loop
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
