-- Stock-takes: what the record says should lie at some places, what people saw there, and how each difference was worked off.

create table stock_take (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  -- Null for a stock-take of single places.
  site_id uuid,
  state text collate "C" not null check (state in ('open', 'closed')),
  started_at timestamptz not null,
  started_by uuid not null,
  closed_at timestamptz,
  closed_by uuid,
  version integer not null default 1,
  primary key (network_id, id),
  check ((state = 'closed') = (closed_at is not null) and (closed_at is null) = (closed_by is null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, site_id) references site (network_id, id),
  foreign key (network_id, started_by) references person (network_id, id),
  foreign key (network_id, closed_by) references person (network_id, id)
);

create table stock_take_place (
  network_id uuid not null,
  incident_id uuid not null,
  stock_take_id uuid not null,
  place_kind text collate "C" not null,
  place_id uuid not null,
  primary key (network_id, stock_take_id, place_kind, place_id),
  foreign key (network_id, stock_take_id) references stock_take (network_id, id)
);

-- What was on record at these places when it began.
create table stock_take_line (
  network_id uuid not null,
  incident_id uuid not null,
  stock_take_id uuid not null,
  item_id uuid not null,
  -- The last event of its record then.
  at_seq integer not null,
  -- Where it was, from the inside outwards: kind and id of each keeper, with a space between.
  way text[] not null check (cardinality(way) > 0),
  primary key (network_id, stock_take_id, item_id),
  foreign key (network_id, stock_take_id) references stock_take (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id)
);

create table stock_take_scan (
  network_id uuid not null,
  incident_id uuid not null,
  stock_take_id uuid not null,
  -- Made by the device: the same scan sent again is the same scan.
  scan_id uuid not null,
  -- The order in which they came, within the stock-take: microseconds of our clock, never less than before; gaps mean nothing.
  scan_no bigint not null,
  tag text collate "C" not null,
  standing text collate "C" not null check (standing in ('ours', 'left', 'unknown', 'retired', 'not-tied', 'other-incident')),
  item_id uuid,
  place_kind text collate "C" not null,
  place_id uuid not null,
  seen_at timestamptz not null,
  recorded_at timestamptz not null,
  person_id uuid not null,
  primary key (network_id, stock_take_id, scan_id),
  foreign key (network_id, stock_take_id) references stock_take (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id)
);

create table stock_take_resolution (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  stock_take_id uuid not null,
  difference_id uuid not null,
  -- Item, or tag where there is none.
  subject text collate "C" not null,
  kind text collate "C" not null check (kind in ('misplaced', 'missing', 'foreign')),
  resolution text collate "C" not null check (resolution in ('move-on-record', 'put-back', 'reported-missing', 'foreign-to-coordinator', 'recount')),
  person_id uuid not null,
  reason text not null,
  resolved_at timestamptz not null,
  -- Scans up to this one were known when it was decided.
  after_scan_no bigint not null,
  -- The custody event that it made.
  event_seq integer,
  primary key (network_id, id),
  foreign key (network_id, stock_take_id) references stock_take (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id)
);
create index stock_take_resolution_by_stock_take on stock_take_resolution (network_id, stock_take_id, id);

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['stock_take', 'stock_take_place', 'stock_take_line', 'stock_take_scan', 'stock_take_resolution'] loop
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
grant update on stock_take to wl_app;
