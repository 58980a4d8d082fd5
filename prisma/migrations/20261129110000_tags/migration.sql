-- Tags for places and people, who tied them, and what took the place of a lost one. Label templates of a network.

alter table tag_block drop constraint tag_block_kind_check;
alter table tag_block add constraint tag_block_kind_check check (kind in ('item', 'container', 'place', 'person'));
alter table tag_serial drop constraint tag_serial_kind_check;
alter table tag_serial add constraint tag_serial_kind_check check (kind in ('item', 'container', 'place', 'person'));
alter table tag drop constraint tag_kind_check;
alter table tag add constraint tag_kind_check check (kind in ('item', 'container', 'place', 'person'));

alter table tag
  -- Kept without a foreign key, because its kind says in which table it stands; the tie checks it.
  add column place_kind text collate "C" check (place_kind in ('station', 'holding', 'drying-place', 'freezer', 'shelf', 'vehicle')),
  add column place_id uuid,
  add column person_id uuid,
  -- The key that tied it; null for what was tied before this was kept.
  add column tied_by uuid,
  add column retired_at timestamptz,
  add column retired_by uuid,
  add column replaced_by text collate "C",
  add column replaced_reason text,
  add constraint tag_place_whole check ((place_kind is null) = (place_id is null)),
  add constraint tag_of_its_kind check (
    (item_id is null or kind = 'item') and (container_id is null or kind = 'container') and (place_id is null or kind = 'place') and (person_id is null or kind = 'person')),
  -- What was replaced stays tied for ever, so that it is never used again and still leads to its thing.
  add constraint tag_retired_whole check (
    (retired_at is null) = (replaced_by is null) and (retired_at is null) = (retired_by is null) and (retired_at is null) = (replaced_reason is null)
    and (retired_at is null or num_nonnulls(item_id, container_id, place_id, person_id) = 1)),
  add constraint tag_not_its_own_successor check (replaced_by <> code),
  add foreign key (network_id, person_id) references person (network_id, id),
  add foreign key (network_id, replaced_by) references tag (network_id, code);

-- One live tag of each thing; a tag takes the place of one other at most.
create unique index tag_live_of_item on tag (network_id, item_id) where retired_at is null and item_id is not null;
create unique index tag_live_of_container on tag (network_id, container_id) where retired_at is null and container_id is not null;
create unique index tag_live_of_place on tag (network_id, place_id, place_kind) where retired_at is null and place_id is not null;
create unique index tag_live_of_person on tag (network_id, person_id) where retired_at is null and person_id is not null;
create unique index tag_successor on tag (network_id, replaced_by) where replaced_by is not null;
create index tag_by_block on tag (network_id, block_id, code);
create index tag_block_by_incident on tag_block (network_id, incident_id, id);

-- The grid of a sheet in millimetres, as a document. Made by a key that is limited to an incident, it belongs to that incident.
create table label_template (
  network_id uuid not null references network (network_id),
  incident_id uuid,
  id uuid not null,
  name text not null,
  template jsonb not null check (jsonb_typeof(template) = 'object'),
  created_at timestamptz not null,
  created_by uuid not null,
  primary key (network_id, id),
  foreign key (network_id, incident_id) references incident (network_id, id)
);

alter table label_template enable row level security;
alter table label_template force row level security;
create policy of_network on label_template
  using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
  with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid);
-- A limited key prints on the templates of the whole network and of its incident, and makes them for its incident alone.
create policy of_incident on label_template as restrictive
  using (nullif(current_setting('app.incident_id', true), '') is null or incident_id is null
         or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid)
  with check (nullif(current_setting('app.incident_id', true), '') is null
              or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid);
alter table label_template owner to wl_owner;
grant select, insert on label_template to wl_app;
