-- What is measured: sensors, every reading of air, weighings of things, and weather.

-- A thing that measures one place. Taken out of use it stays, for its readings name it.
create table sensor (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  code text collate "C" not null,
  name text not null,
  place_kind text collate "C" not null check (place_kind in ('drying-room', 'freezer', 'zone', 'outdoors')),
  -- Drying room, freezer or zone; for `outdoors` the site.
  place_id uuid not null,
  state text collate "C" not null default 'in-service' check (state in ('in-service', 'withdrawn')),
  withdrawn_at timestamptz,
  version integer not null default 1,
  created_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, incident_id, code),
  check ((state = 'withdrawn') = (withdrawn_at is not null)),
  foreign key (network_id, incident_id) references incident (network_id, id)
);
create index sensor_by_place on sensor (network_id, place_kind, place_id);

-- Every reading of air that was believed at least as far as to be kept. Values never change; whether a reading is in doubt is
-- judged again when another one comes in between, so that the order of arrival does not matter.
create table climate_reading (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  place_kind text collate "C" not null check (place_kind in ('drying-room', 'freezer', 'zone', 'outdoors')),
  place_id uuid not null,
  -- The order of recording at this place, from 1 without gaps and in the order of commits: whoever has read up to a number has
  -- read everything below it. Counted by place, because a number over all networks would tell one about the other.
  sequence bigint not null check (sequence > 0),
  -- null: read by hand.
  sensor_id uuid,
  measured_at timestamptz not null,
  air_temp_c double precision not null check (air_temp_c between -100 and 100),
  -- null where only the temperature is measured.
  relative_humidity_pct double precision check (relative_humidity_pct between 0 and 100),
  recorded_at timestamptz not null,
  -- Who sent it: written down by hand, the sensor's own logger, or the system of a partner.
  source text collate "C" not null check (source in ('hand', 'sensor', 'partner')),
  state text collate "C" not null default 'accepted' check (state in ('accepted', 'doubtful')),
  -- Why it is in doubt: perhaps another unit, a jump, saturated air or the same values for hours.
  doubt text collate "C" check (doubt in ('unit', 'jump', 'saturated', 'stuck')),
  primary key (network_id, id),
  unique (network_id, place_kind, place_id, sequence),
  -- One sensor has one value at one moment.
  unique (network_id, sensor_id, measured_at),
  check ((state = 'doubtful') = (doubt is not null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, sensor_id) references sensor (network_id, id)
);
create index climate_reading_by_place on climate_reading (network_id, place_kind, place_id, measured_at, id);
create index climate_reading_by_incident on climate_reading (network_id, incident_id, measured_at, id);

-- What a scale showed with the thing on it. Same thing, same moment: the same weighing.
create table weighing (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  scale_kg double precision not null check (scale_kg > 0 and scale_kg <= 2000),
  -- Tub, board or hanger that was on the scale with it.
  tare_kg double precision not null default 0 check (tare_kg >= 0),
  -- What is left for the thing.
  mass_kg double precision not null check (mass_kg > 0),
  -- The smallest step of the scale.
  resolution_kg double precision not null check (resolution_kg > 0 and resolution_kg <= 50),
  weighed_at timestamptz not null,
  person_id uuid,
  drying_place_id uuid,
  note text not null default '',
  state text collate "C" not null default 'accepted' check (state in ('accepted', 'doubtful')),
  doubt text collate "C" check (doubt in ('heavier-than-before', 'heavier-than-such-things', 'lighter-than-such-things')),
  recorded_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, item_id, weighed_at),
  check ((state = 'doubtful') = (doubt is not null)),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id),
  foreign key (network_id, drying_place_id) references drying_place (network_id, id)
);
create index weighing_by_incident on weighing (network_id, incident_id, weighed_at, id);

-- Weather of a site: what was observed, and what was forecast for an hour at the time of its issue.
create table weather_record (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  kind text collate "C" not null check (kind in ('observed', 'forecast')),
  valid_at timestamptz not null,
  -- null for what was observed.
  issued_at timestamptz,
  air_temp_c double precision not null check (air_temp_c between -100 and 100),
  relative_humidity_pct double precision not null check (relative_humidity_pct between 0 and 100),
  wind_m_per_s double precision check (wind_m_per_s between 0 and 150),
  -- Which service or person says so, for people.
  source text collate "C" not null check (length(source) between 1 and 200),
  recorded_at timestamptz not null,
  primary key (network_id, id),
  unique nulls not distinct (network_id, site_id, kind, valid_at, source, issued_at),
  check ((kind = 'forecast') = (issued_at is not null)),
  foreign key (network_id, site_id) references site (network_id, id)
);
create index weather_record_observed on weather_record (network_id, incident_id, valid_at) where kind = 'observed';

-- When the outdoor air of the incident was so: an older observation does not replace it. Null while nobody said any.
alter table incident add column outdoor_air_at timestamptz;

-- The readings by hand move, and the air that every room was registered with becomes a reading like any other. The owner is
-- bound by the policies too, so they are lifted for these statements.
alter table room_reading no force row level security;
alter table drying_room no force row level security;
alter table incident no force row level security;
insert into climate_reading (network_id, incident_id, id, place_kind, place_id, sequence, measured_at, air_temp_c, relative_humidity_pct, recorded_at, source)
select r.network_id, r.incident_id, r.id, 'drying-room', r.place_id, row_number() over (partition by r.network_id, r.place_id order by r.recorded_at, r.id), r.measured_at, r.air_temp_c, r.relative_humidity_pct, r.recorded_at, 'hand'
  from (select network_id, incident_id, id, drying_room_id as place_id, measured_at, air_temp_c, relative_humidity_pct, recorded_at from room_reading
        union all
        select d.network_id, d.incident_id, uuidv7(), d.id, d.measured_at, d.air_temp_c, d.relative_humidity_pct, i.created_at
          from drying_room d join incident i on i.network_id = d.network_id and i.id = d.incident_id
         where not exists (select from room_reading k where k.network_id = d.network_id and k.drying_room_id = d.id and k.measured_at = d.measured_at
                             and k.air_temp_c = d.air_temp_c and k.relative_humidity_pct = d.relative_humidity_pct)) r;
update incident set outdoor_air_at = updated_at where outdoor_air_temp_c is not null;
alter table incident force row level security;
alter table drying_room force row level security;
drop table room_reading;

alter table outbox drop constraint outbox_kind_check;
alter table outbox add constraint outbox_kind_check check (kind in ('plan.requested', 'intake_import.submitted', 'rule_book.chosen', 'climate.readings'));
-- Whether somebody has rung for a place already, without reading the backlog.
create index outbox_waiting on outbox (network_id, subject_id) where done_at is null and dead_at is null and tries = 0;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['sensor', 'climate_reading', 'weighing', 'weather_record'] loop
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
