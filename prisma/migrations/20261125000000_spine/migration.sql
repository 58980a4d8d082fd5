-- The spine: one network is one tenant. Every table leads its keys with network_id, row-level security is
-- enabled and forced on all of them, and the application role owns nothing.
-- text + check instead of enums, because enum equality is not leakproof and would lose its index below a policy.

create table network (
  network_id uuid primary key,
  name text not null check (length(name) between 1 and 200),
  time_zone text not null default 'UTC',
  suspended_at timestamptz,
  created_at timestamptz not null
);

create table incident (
  network_id uuid not null references network (network_id),
  id uuid not null,
  name text not null,
  place text not null default '',
  -- When the water came: the clock of every item whose own wetting time is not known.
  flood_at timestamptz not null,
  default_water text not null default 'black',
  outdoor_air_temp_c double precision,
  outdoor_relative_humidity_pct double precision,
  state text not null default 'open' check (state in ('open', 'closed')),
  version integer not null default 1,
  created_at timestamptz not null,
  updated_at timestamptz not null,
  primary key (network_id, id)
);

create table api_key (
  network_id uuid not null references network (network_id),
  id uuid not null,
  prefix text collate "C" not null,
  secret_sha256 bytea not null,
  label text not null,
  scopes text[] not null,
  -- A key may be limited to one incident; then nothing of another incident exists for it.
  limited_to_incident_id uuid,
  expires_at timestamptz not null,
  revoked_at timestamptz,
  replaces_id uuid,
  created_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, prefix),
  foreign key (network_id, limited_to_incident_id) references incident (network_id, id)
);
create index api_key_prefix on api_key (prefix);

create table site (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  code text collate "C" not null,
  name text not null,
  place text not null default '',
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, incident_id, code),
  foreign key (network_id, incident_id) references incident (network_id, id)
);

create table zone (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  kind text collate "C" not null check (kind in ('dirty', 'clean', 'quarantine', 'cold')),
  primary key (network_id, id),
  unique (network_id, site_id, kind),
  foreign key (network_id, site_id) references site (network_id, id)
);

create table station (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  zone_id uuid not null,
  code text collate "C" not null,
  name text not null,
  steps text[] not null,
  capacity integer not null check (capacity between 1 and 500),
  state text collate "C" not null default 'open' check (state in ('open', 'closed')),
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, site_id, code),
  foreign key (network_id, site_id) references site (network_id, id),
  foreign key (network_id, zone_id) references zone (network_id, id)
);

create table station_opening (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  station_id uuid not null,
  opens_at timestamptz not null,
  closes_at timestamptz not null,
  primary key (network_id, id),
  check (closes_at > opens_at),
  foreign key (network_id, station_id) references station (network_id, id)
);

-- Waiting areas: the keeper of kind `holding`.
create table holding_area (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  zone_id uuid not null,
  code text collate "C" not null,
  name text not null,
  primary key (network_id, id),
  unique (network_id, site_id, code),
  foreign key (network_id, site_id) references site (network_id, id),
  foreign key (network_id, zone_id) references zone (network_id, id)
);

create table drying_room (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  code text collate "C" not null,
  name text not null,
  volume_m3 double precision not null check (volume_m3 > 0),
  air_changes_per_h double precision not null check (air_changes_per_h >= 0),
  humidity_cap_pct double precision not null default 75 check (humidity_cap_pct between 30 and 100),
  air_temp_c double precision not null,
  relative_humidity_pct double precision not null,
  measured_at timestamptz not null,
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, site_id, code),
  foreign key (network_id, site_id) references site (network_id, id)
);

create table room_reading (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  drying_room_id uuid not null,
  air_temp_c double precision not null,
  relative_humidity_pct double precision not null,
  measured_at timestamptz not null,
  recorded_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, drying_room_id) references drying_room (network_id, id)
);

create table dehumidifier (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  drying_room_id uuid not null,
  code text collate "C" not null,
  name text not null,
  rated_l_per_day double precision not null check (rated_l_per_day >= 0),
  -- The label means nothing without the air it was rated in.
  rated_temp_c double precision not null,
  rated_relative_humidity_pct double precision not null,
  state text collate "C" not null default 'running' check (state in ('running', 'tripped', 'off')),
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, drying_room_id, code),
  foreign key (network_id, drying_room_id) references drying_room (network_id, id)
);

create table drying_place (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  drying_room_id uuid not null,
  code text collate "C" not null,
  name text not null,
  arrangement text collate "C" not null check (arrangement in ('rack', 'line', 'screen', 'table')),
  area_dm2 integer not null check (area_dm2 > 0),
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, drying_room_id, code),
  foreign key (network_id, drying_room_id) references drying_room (network_id, id)
);

create table freezer (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  code text collate "C" not null,
  name text not null,
  volume_l integer not null check (volume_l > 0),
  set_point_c double precision not null default -18,
  available_from timestamptz not null,
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, site_id, code),
  foreign key (network_id, site_id) references site (network_id, id)
);

create table specialist (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  code text collate "C" not null,
  name text not null,
  field text not null,
  primary key (network_id, id),
  unique (network_id, incident_id, code),
  foreign key (network_id, incident_id) references incident (network_id, id)
);

create table person (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  code text collate "C" not null,
  display_name text not null,
  skills text[] not null,
  -- Self-declared restrictions, never a diagnosis.
  restrictions text[] not null,
  version integer not null default 1,
  primary key (network_id, id),
  unique (network_id, incident_id, code),
  foreign key (network_id, site_id) references site (network_id, id)
);

create table shift (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  person_id uuid not null,
  starts_at timestamptz not null,
  ends_at timestamptz not null,
  version integer not null default 1,
  primary key (network_id, id),
  check (ends_at >= starts_at),
  foreign key (network_id, person_id) references person (network_id, id)
);

create table household (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  code text collate "C" not null,
  language text collate "C" not null default 'en',
  version integer not null default 1,
  created_at timestamptz not null,
  updated_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, incident_id, code),
  foreign key (network_id, incident_id) references incident (network_id, id)
);

-- Personal data stands here and nowhere else; events, jobs and logs carry ids.
create table household_contact (
  network_id uuid not null,
  incident_id uuid not null,
  household_id uuid not null,
  name text not null,
  phone text not null default '',
  email text not null default '',
  address text not null default '',
  primary key (network_id, household_id),
  foreign key (network_id, household_id) references household (network_id, id)
);

create table tag_block (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  kind text collate "C" not null check (kind in ('item', 'container')),
  first_serial integer not null,
  last_serial integer not null,
  reserved_for text not null,
  created_at timestamptz not null,
  primary key (network_id, id),
  check (last_serial >= first_serial),
  foreign key (network_id, incident_id) references incident (network_id, id)
);

-- The next serial of each kind: locked by the reservation, so two teams never get one code.
create table tag_serial (
  network_id uuid not null references network (network_id),
  kind text collate "C" not null check (kind in ('item', 'container')),
  next_serial integer not null default 1,
  primary key (network_id, kind)
);

create table item (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  site_id uuid not null,
  tag_code text collate "C" not null,
  kind text collate "C" not null check (kind in ('item', 'lot')),
  count integer not null check (count between 1 and 100000),
  split_from_id uuid,
  description text not null,
  family_words text not null default '',
  photograph_ref text not null default '',
  material_class text collate "C" not null,
  size_class text collate "C" not null,
  -- What the whole lot takes on drying places and in a freezer, from its size class and count (own calibration).
  area_dm2 integer not null check (area_dm2 > 0),
  volume_l integer not null check (volume_l > 0),
  dry_mass_g integer not null check (dry_mass_g > 0),
  significance text collate "C" not null,
  arrived_at timestamptz not null,
  wetted_at timestamptz,
  -- Projection of the custody chain; the chain is the truth.
  seq integer not null,
  head_hash text collate "C" not null,
  keeper_kind text collate "C" not null,
  keeper_id uuid not null,
  stage text collate "C" not null check (stage in
    ('waiting', 'in-work', 'drying', 'held-wet', 'held-frozen', 'referred-out', 'released', 'handed-back')),
  -- Projection of triage and of the work done.
  urgency text collate "C" check (urgency in ('immediate', 'within-a-day', 'within-two-days', 'can-wait')),
  start_by timestamptz,
  disposition text collate "C" check (disposition in ('treat', 'hold-frozen', 'hold-wet', 'refer', 'release')),
  planning_weight integer not null default 1 check (planning_weight > 0),
  stabilised_at timestamptz,
  next_step text collate "C",
  route_position integer not null default 0,
  waiting_for_owner boolean not null default false,
  version integer not null default 1,
  created_at timestamptz not null,
  updated_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, tag_code),
  check ((kind = 'item' and count = 1) or kind = 'lot'),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, site_id) references site (network_id, id),
  foreign key (network_id, split_from_id) references item (network_id, id)
) with (fillfactor = 85);
create index item_by_incident on item (network_id, incident_id, id);
create index item_by_stage on item (network_id, incident_id, stage, id);
create index item_by_household on item (network_id, household_id, id);
create index item_by_keeper on item (network_id, keeper_kind, keeper_id);
create index item_open_by_start on item (network_id, incident_id, start_by, id)
  where stage not in ('released', 'handed-back');

create table container (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  tag_code text collate "C" not null,
  kind text collate "C" not null check (kind in ('box', 'bag', 'tub', 'crate')),
  description text not null default '',
  created_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, tag_code),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, site_id) references site (network_id, id)
);

create table tag (
  network_id uuid not null,
  incident_id uuid not null,
  code text collate "C" not null,
  kind text collate "C" not null check (kind in ('item', 'container')),
  block_id uuid not null,
  item_id uuid,
  container_id uuid,
  tied_at timestamptz,
  primary key (network_id, code),
  foreign key (network_id, block_id) references tag_block (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, container_id) references container (network_id, id)
);

create table consent (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  -- null: for all things of the household
  item_id uuid,
  scope text collate "C" not null check (scope in ('treat', 'freeze', 'refer', 'release', 'photograph')),
  given boolean not null,
  manner text collate "C" not null check (manner in ('spoken', 'written', 'link')),
  note text not null default '',
  recorded_by uuid not null,
  recorded_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id)
);
create index consent_by_household on consent (network_id, household_id, recorded_at);

create table assessment (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  observed jsonb not null,
  -- Why there is a new one: a person assessed, or a step result changed what is known.
  origin text collate "C" not null check (origin in ('person', 'step-result', 'colour-test', 'consent')),
  assessed_by uuid not null,
  assessed_at timestamptz not null,
  recorded_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id)
);
create index assessment_by_item on assessment (network_id, item_id, recorded_at);

create table colour_test (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  colour text not null,
  solution text collate "C" not null check (solution in ('water', 'detergent')),
  method text collate "C" not null check (method in ('swab', 'blotter', 'lab')),
  reading text collate "C" not null,
  tested_by uuid not null,
  tested_at timestamptz not null,
  recorded_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id)
);
create index colour_test_by_item on colour_test (network_id, item_id, recorded_at);

create table triage_result (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  assessment_id uuid not null,
  rule_book_version text not null,
  urgency text collate "C" not null,
  start_by timestamptz not null,
  result jsonb not null,
  created_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, assessment_id) references assessment (network_id, id)
);
create index triage_result_by_item on triage_result (network_id, item_id, created_at);

create table disposition_override (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  disposition text collate "C" not null,
  reason text not null check (length(reason) between 3 and 2000),
  decided_by uuid not null,
  decided_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, decided_by) references person (network_id, id)
);
create index disposition_override_by_item on disposition_override (network_id, item_id, decided_at);

create table plan_revision (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  number integer not null,
  origin_at timestamptz not null,
  slot_minutes integer not null,
  seed integer not null,
  iterations integer not null,
  weight_not_in_time bigint not null,
  weighted_start bigint not null,
  planned_items integer not null,
  unplanned_items integer not null,
  summary jsonb not null,
  created_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, incident_id, number),
  foreign key (network_id, incident_id) references incident (network_id, id)
);

create table plan_run (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  state text collate "C" not null check (state in ('queued', 'running', 'done', 'failed')),
  reason text not null,
  requested_at timestamptz not null,
  started_at timestamptz,
  finished_at timestamptz,
  revision_id uuid,
  failure text,
  primary key (network_id, id),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, revision_id) references plan_revision (network_id, id)
);
-- At most one waiting run an incident: many results in a minute ask for one new plan, not for many.
create unique index plan_run_one_queued on plan_run (network_id, incident_id) where state = 'queued';

-- Fencing: a planner that was paused and overtaken cannot write.
create table plan_epoch (
  network_id uuid not null,
  incident_id uuid not null,
  epoch bigint not null default 0,
  primary key (network_id, incident_id),
  foreign key (network_id, incident_id) references incident (network_id, id)
);

create table plan_assignment (
  network_id uuid not null,
  incident_id uuid not null,
  revision_id uuid not null,
  item_id uuid not null,
  position integer not null,
  step text collate "C" not null,
  disposition text collate "C" not null,
  station_id uuid,
  person_ids uuid[] not null,
  drying_place_id uuid,
  freezer_id uuid,
  starts_at timestamptz not null,
  ends_at timestamptz not null,
  primary key (network_id, revision_id, item_id, position),
  foreign key (network_id, revision_id) references plan_revision (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, station_id) references station (network_id, id),
  foreign key (network_id, drying_place_id) references drying_place (network_id, id),
  foreign key (network_id, freezer_id) references freezer (network_id, id)
);
create index plan_assignment_by_station on plan_assignment (network_id, revision_id, station_id, starts_at);

create table plan_unplanned (
  network_id uuid not null,
  incident_id uuid not null,
  revision_id uuid not null,
  item_id uuid not null,
  weight integer not null,
  blocker_kind text collate "C" not null,
  blocker_what text not null,
  primary key (network_id, revision_id, item_id),
  foreign key (network_id, revision_id) references plan_revision (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id)
);

create table step_result (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  step text collate "C" not null,
  outcome text collate "C" not null check (outcome in ('done', 'failed', 'dye-moved', 'mould-found', 'owner-must-decide')),
  station_id uuid,
  person_id uuid,
  note text not null default '',
  started_at timestamptz,
  finished_at timestamptz not null,
  recorded_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, station_id) references station (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id)
);
create index step_result_by_item on step_result (network_id, item_id, recorded_at);

create table custody_event (
  network_id uuid not null,
  incident_id uuid not null,
  item_id uuid not null,
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
  primary key (network_id, item_id, seq),
  foreign key (network_id, item_id) references item (network_id, id)
);

create table referral (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  specialist_id uuid not null,
  consent_id uuid not null,
  reason text not null,
  sent_at timestamptz not null,
  returned_at timestamptz,
  primary key (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, specialist_id) references specialist (network_id, id),
  foreign key (network_id, consent_id) references consent (network_id, id)
);

create table hand_back (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  receiver text collate "C" not null check (receiver in ('contact', 'named-representative')),
  identity_check text collate "C" not null check (identity_check in ('document-seen', 'known-in-person', 'pickup-code')),
  signature_ref text not null,
  receipt jsonb not null,
  handed_by uuid not null,
  handed_at timestamptz not null,
  recorded_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id)
);

create table hand_back_item (
  network_id uuid not null,
  incident_id uuid not null,
  hand_back_id uuid not null,
  item_id uuid not null,
  condition_note text not null,
  -- Not unique by item: what was handed back by mistake comes back by a correction and is handed back again.
  primary key (network_id, hand_back_id, item_id),
  foreign key (network_id, hand_back_id) references hand_back (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id)
);

create table intake_import (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  file_name text not null,
  media_type text not null,
  sha256 text collate "C" not null,
  -- Encoding, delimiter, columns as found, and remarks about the whole file.
  reading jsonb not null,
  -- The bytes as they came. They hold contacts: emptied when the import is over.
  content bytea not null,
  state text collate "C" not null check (state in ('queued', 'running', 'done', 'failed')),
  rows_total integer,
  rows_done integer not null default 0,
  accepted integer not null default 0,
  repaired integer not null default 0,
  refused integer not null default 0,
  already_there integer not null default 0,
  failure text,
  submitted_by uuid not null,
  submitted_at timestamptz not null,
  finished_at timestamptz,
  primary key (network_id, id),
  -- The same file twice is the same import.
  unique (network_id, incident_id, site_id, sha256),
  foreign key (network_id, site_id) references site (network_id, id)
);

create table intake_import_row (
  network_id uuid not null,
  incident_id uuid not null,
  import_id uuid not null,
  row_number integer not null,
  outcome text collate "C" not null check (outcome in ('accepted', 'repaired', 'refused', 'already-there')),
  item_id uuid,
  -- [{ kind, column, code, text, was, became }]
  remarks jsonb not null,
  cells jsonb not null,
  primary key (network_id, import_id, row_number),
  foreign key (network_id, import_id) references intake_import (network_id, id)
);
create index intake_import_row_by_outcome on intake_import_row (network_id, import_id, outcome, row_number);

-- The queue of record. A job in BullMQ is a doorbell that carries (network_id, id) and may be lost.
create table outbox (
  network_id uuid not null,
  id uuid not null,
  incident_id uuid not null,
  kind text collate "C" not null check (kind in ('plan.requested', 'intake_import.submitted')),
  subject_id uuid not null,
  traceparent text not null default '',
  created_at timestamptz not null default clock_timestamp(),
  leased_until timestamptz,
  tries integer not null default 0,
  done_at timestamptz,
  dead_at timestamptz,
  dead_reason text,
  primary key (network_id, id)
);
create index outbox_open on outbox (network_id, id) where done_at is null and dead_at is null;
-- How many rows of a network are out, without reading its backlog.
create index outbox_out on outbox (network_id, leased_until) where done_at is null and dead_at is null and leased_until is not null;

create table idempotency_record (
  network_id uuid not null,
  principal_id uuid not null,
  operation text collate "C" not null,
  idempotency_key uuid not null,
  fingerprint text collate "C" not null,
  status integer not null,
  body jsonb,
  headers jsonb not null,
  created_at timestamptz not null default clock_timestamp(),
  primary key (network_id, principal_id, operation, idempotency_key)
);
create index idempotency_record_age on idempotency_record (network_id, created_at);

create table audit_entry (
  network_id uuid not null,
  id uuid not null default uuidv7(),
  principal_id uuid not null,
  operation text collate "C" not null,
  subject_kind text collate "C" not null,
  subject_id uuid,
  outcome text collate "C" not null,
  request_id text collate "C" not null,
  at timestamptz not null default clock_timestamp(),
  primary key (network_id, id)
);

-- Append-only tables refuse change even to their owner; a mistake is corrected by a new event.
create function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception '% is append-only', tg_table_name using errcode = 'restrict_violation';
end
$$;
create trigger custody_event_append_only before update or delete on custody_event for each row execute function refuse_change();
create trigger custody_event_no_truncate before truncate on custody_event for each statement execute function refuse_change();
create trigger audit_entry_append_only before update or delete on audit_entry for each row execute function refuse_change();
create trigger audit_entry_no_truncate before truncate on audit_entry for each statement execute function refuse_change();

-- One policy for all: nothing without a network, nothing of another network; and where a key is limited to one
-- incident, nothing of another incident. After a transaction-local setting ends it reads as '', hence nullif.
do $$
declare
  t record;
begin
  for t in
    select c.relname as name,
           exists (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'incident_id' and not a.attisdropped) as has_incident
    from pg_class c join pg_namespace n on n.oid = c.relnamespace
    where n.nspname = current_schema() and c.relkind = 'r' and c.relname <> '_prisma_migrations'
  loop
    execute format('alter table %I enable row level security', t.name);
    execute format('alter table %I force row level security', t.name);
    execute format($p$create policy of_network on %I
      using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
      with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid)$p$, t.name);
    if t.has_incident or t.name in ('incident', 'api_key') then
      execute format($p$create policy of_incident on %I as restrictive
        using (nullif(current_setting('app.incident_id', true), '') is null
               or %I = nullif(current_setting('app.incident_id', true), '')::uuid)$p$,
        t.name, case t.name when 'incident' then 'id' when 'api_key' then 'limited_to_incident_id' else 'incident_id' end);
    end if;
    execute format('alter table %I owner to wl_owner', t.name);
    execute format('grant select, insert, update, delete on %I to wl_app', t.name);
  end loop;
end
$$;
revoke update, delete on custody_event, audit_entry from wl_app;
revoke insert, update, delete on network from wl_app;

-- The relay sees the outbox of every network, and nothing else.
grant usage on schema public to wl_app, wl_relay, wl_auth;
grant select, update on outbox to wl_relay;
create policy relay_all on outbox to wl_relay using (true) with check (true);

-- The one look-up before the network is known: by the public prefix of a key, to compare its hash.
grant select on api_key, network to wl_auth;
create policy auth_lookup on api_key for select to wl_auth using (true);
create policy auth_lookup on network for select to wl_auth using (true);
create function authenticate_key(p_prefix text)
returns table (network_id uuid, key_id uuid, secret_sha256 bytea, scopes text[], limited_to_incident_id uuid,
               expires_at timestamptz, revoked_at timestamptz, suspended_at timestamptz)
language sql stable security definer set search_path = public, pg_temp as $$
  select k.network_id, k.id, k.secret_sha256, k.scopes, k.limited_to_incident_id, k.expires_at, k.revoked_at, n.suspended_at
  from api_key k join network n on n.network_id = k.network_id
  where k.prefix = p_prefix
$$;
alter function authenticate_key(text) owner to wl_auth;
revoke all on function authenticate_key(text) from public;
grant execute on function authenticate_key(text) to wl_app;

-- Idempotency, in the transaction of the effect. The advisory lock makes "still running" visible (409) instead
-- of letting the second request wait; it ends with the transaction.
create function begin_command(p_principal uuid, p_operation text, p_key uuid, p_fingerprint text)
returns table (verdict text, status integer, body jsonb, headers jsonb)
language plpgsql as $$
declare
  v_network uuid := nullif(current_setting('app.network_id', true), '')::uuid;
  r idempotency_record%rowtype;
begin
  if not pg_try_advisory_xact_lock(hashtextextended(v_network::text || p_principal::text || p_operation || p_key::text, 0)) then
    return query select 'running'::text, null::integer, null::jsonb, null::jsonb;
    return;
  end if;
  select * into r from idempotency_record i
   where i.network_id = v_network and i.principal_id = p_principal and i.operation = p_operation and i.idempotency_key = p_key;
  if not found then
    return query select 'new'::text, null::integer, null::jsonb, null::jsonb;
  elsif r.fingerprint <> p_fingerprint then
    return query select 'mismatch'::text, null::integer, null::jsonb, null::jsonb;
  else
    return query select 'replay'::text, r.status, r.body, r.headers;
  end if;
end
$$;
revoke all on function begin_command(uuid, text, uuid, text) from public;
grant execute on function begin_command(uuid, text, uuid, text) to wl_app;
