-- What is reckoned from readings: the course of every drying room, the standing of what hangs there, and alarms. All of it but
-- the machines' states and the words of people at alarms can be reckoned again from what was measured.

-- When a dehumidifier ran, tripped or stood: its present state is in `dehumidifier`.
create table dehumidifier_state (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  dehumidifier_id uuid not null,
  state text collate "C" not null check (state in ('running', 'tripped', 'off')),
  from_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, dehumidifier_id) references dehumidifier (network_id, id)
);
create index dehumidifier_state_by_machine on dehumidifier_state (network_id, dehumidifier_id, from_at, id);

-- The newest reckoning of a room. Epochs fence as they do for plans: `epoch` is taken before the rows are read, and only a later
-- one than `stored_epoch` may store.
create table room_course (
  network_id uuid not null,
  incident_id uuid not null,
  drying_room_id uuid not null,
  epoch bigint not null default 0,
  stored_epoch bigint not null default 0,
  -- The moment that standing and forecast are of; null before the first.
  as_of timestamptz,
  -- Hash of everything they rest on.
  basis text collate "C",
  standing jsonb,
  forecast jsonb,
  primary key (network_id, drying_room_id),
  foreign key (network_id, drying_room_id) references drying_room (network_id, id)
);

-- A room as it stood at one of its readings, to go on from. A few are kept, so that what comes in late costs only its share.
create table room_checkpoint (
  network_id uuid not null,
  incident_id uuid not null,
  drying_room_id uuid not null,
  at timestamptz not null,
  basis text collate "C" not null,
  state jsonb not null,
  primary key (network_id, drying_room_id, at),
  foreign key (network_id, drying_room_id) references drying_room (network_id, id)
);

-- The standing of a thing in a room where it hangs or has hung.
create table item_climate (
  network_id uuid not null,
  incident_id uuid not null,
  item_id uuid not null,
  drying_room_id uuid not null,
  hung_at timestamptz not null,
  -- null while it hangs.
  taken_at timestamptz,
  as_of timestamptz not null,
  moisture_x double precision not null,
  water_kg double precision not null,
  dose double precision not null,
  clock_state text collate "C" not null check (clock_state in ('in-time', 'amber', 'red', 'none')),
  -- Band in which it should be dry; null for not within the forecast, or for what no formula knows.
  dry_earliest_at timestamptz,
  dry_expected_at timestamptz,
  dry_latest_at timestamptz,
  -- On what it rests, the clock's band, and what is assumed.
  detail jsonb not null,
  primary key (network_id, item_id, drying_room_id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, drying_room_id) references drying_room (network_id, id)
);
create index item_climate_hanging on item_climate (network_id, drying_room_id, item_id) where taken_at is null;

-- Raised once, acknowledged by a person, cleared by what is measured.
create table alarm (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  kind text collate "C" not null check (kind in
    ('room-over-cap', 'room-mould-possible', 'clock-amber', 'clock-red', 'dehumidifier-stopped', 'dehumidifier-short', 'freezer-warm', 'freezer-thawing', 'sensor-silent')),
  subject_kind text collate "C" not null check (subject_kind in ('drying-room', 'dehumidifier', 'freezer')),
  subject_id uuid not null,
  severity text collate "C" not null check (severity in ('warning', 'danger')),
  raised_at timestamptz not null,
  -- The numbers at raising, and as last seen while it is open.
  evidence jsonb not null,
  present jsonb not null,
  present_at timestamptz not null,
  acknowledged_at timestamptz,
  acknowledged_by uuid,
  acknowledged_note text check (length(acknowledged_note) <= 2000),
  -- What was seen when it was acknowledged, so that it shows when it has grown since.
  acknowledged_present jsonb,
  cleared_at timestamptz,
  clearing jsonb,
  version integer not null default 1,
  primary key (network_id, id),
  check ((acknowledged_at is null) = (acknowledged_by is null)),
  check ((acknowledged_at is null) = (acknowledged_present is null)),
  check ((cleared_at is null) = (clearing is null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, acknowledged_by) references person (network_id, id)
);
-- At most one open alarm of a kind about one thing.
create unique index alarm_open on alarm (network_id, subject_id, kind) where cleared_at is null;
create index alarm_by_incident on alarm (network_id, incident_id, id);
create index alarm_open_by_incident on alarm (network_id, incident_id, id) where cleared_at is null;

-- What hung in a room, and since when.
create index custody_event_to_drying_place on custody_event (network_id, to_id, item_id, seq) where to_kind = 'drying-place';

-- Rooms and freezers are looked at again although nothing was read. Such a row lies in the outbox ahead of its time; it is not
-- out, and takes no share of what is.
alter table outbox add column not_before timestamptz;
alter table outbox drop constraint outbox_kind_check;
alter table outbox add constraint outbox_kind_check check (kind in ('plan.requested', 'intake_import.submitted', 'rule_book.chosen', 'climate.readings', 'climate.tick'));
-- At most one look ahead for each of them.
create unique index outbox_one_tick on outbox (network_id, subject_id) where kind = 'climate.tick' and done_at is null and dead_at is null and tries = 0;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['dehumidifier_state', 'room_course', 'room_checkpoint', 'item_climate', 'alarm'] loop
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
-- What can be reckoned again may be removed.
grant delete on room_checkpoint, item_climate to wl_app;
