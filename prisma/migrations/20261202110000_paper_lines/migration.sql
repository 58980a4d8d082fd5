-- Lines of station logs and place sheets that were written in a power cut and keyed in afterwards.

-- The sheets of a kit, numbered when it is made: what is printed later never bears another number.
create table paper_sheet (
  network_id uuid not null,
  incident_id uuid not null,
  kit_id uuid not null,
  sheet_no integer not null check (sheet_no > 0),
  -- The station whose log it is, or the place whose sheet it is.
  place_kind text collate "C" not null check (place_kind in ('station', 'holding', 'drying-place', 'freezer', 'shelf')),
  place_id uuid not null,
  primary key (network_id, kit_id, sheet_no),
  unique (network_id, kit_id, place_kind, place_id),
  foreign key (network_id, kit_id) references paper_kit (network_id, id)
);

-- What became of each line that was keyed; a line that was refused leaves none and may be keyed again.
create table paper_line (
  network_id uuid not null,
  incident_id uuid not null,
  kit_id uuid not null,
  sheet_no integer not null,
  -- As somebody wrote it on the sheet: a full sheet goes on on blank paper.
  part_no integer not null check (part_no between 1 and 99),
  line_no integer not null check (line_no between 1 and 99),
  state text collate "C" not null check (state in ('keyed', 'void')),
  void_reason text collate "C" check (void_reason in ('crossed-out', 'unreadable')),
  -- What was keyed, without its spelling and without anybody's own words.
  fingerprint text collate "C" not null,
  became text collate "C" check (became in ('moved', 'step', 'seen-again', 'seen-late', 'disputed', 'sighted')),
  item_id uuid,
  container_id uuid,
  event_kind text collate "C",
  event_seq integer,
  step_result_id uuid,
  problem jsonb,
  -- When it was written, as the line says.
  written_at timestamptz,
  keyed_at timestamptz not null,
  -- The person who keyed it, and the key that was used.
  keyed_by uuid not null,
  keyed_with uuid not null,
  primary key (network_id, kit_id, sheet_no, part_no, line_no),
  check ((state = 'void') = (void_reason is not null)),
  check ((state = 'keyed') = (became is not null) and (state = 'keyed') = (num_nonnulls(item_id, container_id) = 1)),
  check ((event_kind is null) = (event_seq is null)),
  check ((became is not distinct from 'step') = (step_result_id is not null)),
  check (state = 'void' or written_at is not null),
  foreign key (network_id, kit_id, sheet_no) references paper_sheet (network_id, kit_id, sheet_no),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, container_id) references container (network_id, id),
  foreign key (network_id, step_result_id) references step_result (network_id, id),
  foreign key (network_id, keyed_by) references person (network_id, id)
);

-- Kits from before: the sheets that they would be printed with today. The owner is bound by the policies too, so they are lifted for this statement.
do $$
declare
  name text;
begin
  foreach name in array array['paper_kit', 'station', 'holding_area', 'drying_place', 'drying_room', 'freezer', 'shelf'] loop
    execute format('alter table %I no force row level security', name);
  end loop;
  insert into paper_sheet (network_id, incident_id, kit_id, sheet_no, place_kind, place_id)
  select k.network_id, k.incident_id, k.id, row_number() over (partition by k.network_id, k.id order by p.kind <> 'station', p.kind, p.code collate "C", p.id), p.kind, p.id
    from paper_kit k
    join lateral (
      select 'station' collate "C" as kind, s.id, s.code from station s where s.network_id = k.network_id and s.site_id = k.site_id
      union all select 'holding', h.id, h.code from holding_area h where h.network_id = k.network_id and h.site_id = k.site_id
      union all select 'drying-place', d.id, d.code from drying_place d join drying_room r on r.network_id = d.network_id and r.id = d.drying_room_id where d.network_id = k.network_id and r.site_id = k.site_id
      union all select 'freezer', f.id, f.code from freezer f where f.network_id = k.network_id and f.site_id = k.site_id
      union all select 'shelf', h.id, h.code from shelf h where h.network_id = k.network_id and h.site_id = k.site_id
    ) p on true;
  foreach name in array array['paper_kit', 'station', 'holding_area', 'drying_place', 'drying_room', 'freezer', 'shelf'] loop
    execute format('alter table %I force row level security', name);
  end loop;
end
$$;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['paper_sheet', 'paper_line'] loop
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
