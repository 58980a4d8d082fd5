-- Photographs, voices and written words of families. Their bytes lie outside, under random names, each sealed with a key of its own; that
-- key is sealed with the household's. Here stands what they belong to, how far an upload is, what the check said, and which names may lie outside.

create table file (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  -- Null: of the household as a whole.
  item_id uuid,
  kind text collate "C" not null check (kind in ('photograph', 'voice', 'words')),
  -- What it belongs to; 'own': that it was taken or told is an event of its own.
  event text collate "C" not null check (event in ('intake', 'assessment', 'step-result', 'custody', 'hand-back', 'own')),
  assessment_id uuid,
  step_result_id uuid,
  custody_seq integer,
  hand_back_id uuid,
  sensitive boolean not null,
  person_id uuid,
  language text collate "C" check (language in ('en', 'es')),
  state text collate "C" not null check (state in ('receiving', 'received', 'kept', 'refused', 'expired', 'deleted')),
  -- What the sender announced.
  declared_bytes integer not null check (declared_bytes > 0),
  declared_sha256 text collate "C" check (length(declared_sha256) = 64),
  offset_bytes integer not null default 0 check (offset_bytes between 0 and declared_bytes),
  begun_at timestamptz not null,
  expires_at timestamptz not null,
  received_at timestamptz,
  -- Kept or refused.
  settled_at timestamptz,
  refusal text collate "C",
  media_type text collate "C",
  width_px integer,
  height_px integer,
  duration_ms integer,
  kept_bytes integer,
  -- What the sender's file had and ours has not: 'location', 'exif', ...
  removed text[] not null default '{}',
  deleted_at timestamptz,
  deleted_by uuid,
  -- Why, in words; sealed with the household's key.
  deleted_reason bytea,
  version integer not null default 1,
  primary key (network_id, id),
  check ((event = 'assessment') = (assessment_id is not null)),
  check ((event = 'step-result') = (step_result_id is not null)),
  check ((event in ('custody', 'intake')) = (custody_seq is not null)),
  check ((event = 'hand-back') = (hand_back_id is not null)),
  check (event in ('own', 'hand-back') or item_id is not null),
  check ((state = 'receiving') = (received_at is null) or state in ('expired', 'deleted')),
  check (state not in ('received', 'kept', 'refused') or offset_bytes = declared_bytes),
  check ((state = 'refused') = (refusal is not null) or state = 'deleted'),
  check (state <> 'kept' or media_type is not null),
  check ((state = 'deleted') = (deleted_at is not null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, assessment_id) references assessment (network_id, id),
  foreign key (network_id, step_result_id) references step_result (network_id, id),
  foreign key (network_id, item_id, custody_seq) references custody_event (network_id, item_id, seq),
  foreign key (network_id, hand_back_id) references hand_back (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id),
  foreign key (network_id, deleted_by) references person (network_id, id)
);
create index file_by_household on file (network_id, household_id, id);
create index file_by_item on file (network_id, item_id, id) where item_id is not null;
create index file_unfinished on file (network_id, household_id) where state in ('receiving', 'received');

-- Everything that may lie in the store outside. A name is written here before its bytes are, and goes from here after they are gone, so
-- nothing lies there that nobody knows of.
create table file_object (
  network_id uuid not null,
  incident_id uuid not null,
  file_id uuid not null,
  name text collate "C" not null check (length(name) = 64),
  role text collate "C" not null check (role in ('part', 'full', 'medium', 'small', 'voice', 'words')),
  -- Where a part begins in the upload.
  at_byte integer,
  bytes integer not null check (bytes > 0),
  media_type text collate "C" not null,
  -- The key of the bytes, sealed with the household's.
  content_key bytea not null,
  state text collate "C" not null check (state in ('writing', 'there', 'dropped')),
  -- Real time, by the database's clock: how long a 'writing' may be believed.
  made_at timestamptz not null default clock_timestamp(),
  primary key (network_id, name),
  check ((role = 'part') = (at_byte is not null)),
  foreign key (network_id, file_id) references file (network_id, id)
);
create index file_object_by_file on file_object (network_id, file_id);
-- One answer to what stands at a byte of an upload, and one picture of each size, whatever runs beside.
create unique index file_object_part on file_object (network_id, file_id, at_byte) where state = 'there' and role = 'part';
create unique index file_object_kept on file_object (network_id, file_id, role) where state = 'there' and role <> 'part';

alter table outbox drop constraint outbox_kind_check;
alter table outbox add constraint outbox_kind_check check (kind in ('plan.requested', 'plan.what_if', 'intake_import.submitted', 'rule_book.chosen', 'climate.readings', 'climate.tick', 'custody.root', 'hand_over.due', 'sight.look', 'file.check', 'file.sweep'));

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['file', 'file_object'] loop
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
grant delete on file_object to wl_app;
