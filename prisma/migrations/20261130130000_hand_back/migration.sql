-- Hand-back by appointment, quotes of specialists, and slips of paper that were written in a power cut and keyed in afterwards.

create table hand_back_slot (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  starts_at timestamptz not null,
  ends_at timestamptz not null check (ends_at > starts_at and ends_at <= starts_at + interval '12 hours'),
  capacity integer not null check (capacity between 1 and 200),
  -- Appointments that count: counted in the statement that books, so that no two bookings take one place.
  booked integer not null default 0 check (booked between 0 and capacity),
  created_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, site_id, starts_at, ends_at),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, site_id) references site (network_id, id)
);

create table hand_back_appointment (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  slot_id uuid not null,
  household_id uuid not null,
  state text collate "C" not null check (state in ('booked', 'cancelled', 'missed', 'turned-away', 'kept')),
  -- Of the one-time code that the family brings: scrypt of it with the salt. Null once it was used or is of no use any more.
  code_salt bytea check (octet_length(code_salt) = 16),
  code_hash bytea check (octet_length(code_hash) = 32),
  -- How identity was checked when somebody was turned away. Never the number of a document.
  check_kind text collate "C" check (check_kind in ('document-seen', 'known-in-person', 'pickup-code')),
  check_result text collate "C" check (check_result in ('matched', 'not-matched', 'not-possible')),
  booked_at timestamptz not null,
  booked_by uuid not null,
  ended_at timestamptz,
  ended_by uuid,
  version integer not null default 1,
  primary key (network_id, id),
  check ((state = 'booked') = (ended_at is null) and (ended_at is null) = (ended_by is null)),
  check ((code_salt is null) = (code_hash is null)),
  check ((check_kind is null) = (check_result is null)),
  foreign key (network_id, slot_id) references hand_back_slot (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id)
);
-- A family has one appointment ahead of it; whoever comes for the rest takes the next.
create unique index hand_back_appointment_ahead on hand_back_appointment (network_id, household_id) where state = 'booked';
create index hand_back_appointment_by_slot on hand_back_appointment (network_id, slot_id, id);

alter table hand_back
  add column person_id uuid,
  add column appointment_id uuid,
  -- What the receiver had to say, and the lines of the pen; sealed for the household.
  add column reservations bytea,
  add column signature bytea,
  add column code_used boolean not null default false,
  add foreign key (network_id, person_id) references person (network_id, id),
  add foreign key (network_id, appointment_id) references hand_back_appointment (network_id, id);

-- What is ready and nobody fetches: who is reminded when, until when, and who then decides. Nothing is ever let go by it.
create table uncollected (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  opened_at timestamptz not null,
  opened_by uuid not null,
  first_reminder_at timestamptz not null,
  second_reminder_at timestamptz not null,
  decide_at timestamptz not null,
  -- Who decides when the time has passed.
  decider_id uuid not null,
  reminders integer not null default 0 check (reminders >= 0),
  reminded_at timestamptz,
  state text collate "C" not null check (state in ('open', 'decided', 'collected')),
  decision text collate "C" check (decision in ('keep-longer', 'bring-to-them', 'store-elsewhere', 'search-for-them')),
  -- Why, in words; sealed.
  reason bytea,
  ended_at timestamptz,
  ended_by uuid,
  version integer not null default 1,
  primary key (network_id, id),
  check (opened_at < first_reminder_at and first_reminder_at < second_reminder_at and second_reminder_at < decide_at),
  check ((state = 'open') = (ended_at is null)),
  check ((state = 'decided') = (decision is not null)),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, decider_id) references person (network_id, id)
);
create unique index uncollected_open on uncollected (network_id, household_id) where state = 'open';
create index uncollected_by_incident on uncollected (network_id, incident_id, (state <> 'open'), id);

create table referral_quote (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  specialist_id uuid not null,
  amount_minor bigint not null check (amount_minor between 1 and 100000000000),
  currency text collate "C" not null check (currency ~ '^[A-Z]{3}$'),
  valid_until timestamptz not null,
  -- What the specialist offers to do: about the thing, never about people.
  work text not null,
  state text collate "C" not null check (state in ('open', 'approved', 'declined')),
  -- On what the answer rests: the limit that the owner named before, or what the owner said when asked.
  basis text collate "C" check (basis in ('consent-limit', 'owner-asked')),
  consent_id uuid,
  recorded_at timestamptz not null,
  recorded_by uuid not null,
  decided_at timestamptz,
  decided_by uuid,
  version integer not null default 1,
  primary key (network_id, id),
  check ((state = 'open') = (decided_at is null) and (decided_at is null) = (decided_by is null)),
  check ((state = 'approved') = (basis is not null and consent_id is not null) or state = 'declined'),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, specialist_id) references specialist (network_id, id),
  foreign key (network_id, consent_id) references consent (network_id, id)
);
create index referral_quote_by_item on referral_quote (network_id, item_id, id);
alter table referral add column quote_id uuid, add foreign key (network_id, quote_id) references referral_quote (network_id, id);
-- One offer is carried out once.
create unique index referral_by_quote on referral (network_id, quote_id) where quote_id is not null;

-- A kit for a power cut: numbered slips, each with a reserved tag.
create table paper_kit (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  site_id uuid not null,
  tag_block_id uuid not null,
  slips integer not null check (slips between 1 and 500),
  created_at timestamptz not null,
  created_by uuid not null,
  primary key (network_id, id),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, site_id) references site (network_id, id),
  foreign key (network_id, tag_block_id) references tag_block (network_id, id)
);
create index paper_kit_by_incident on paper_kit (network_id, incident_id, id);

create table paper_slip (
  network_id uuid not null,
  incident_id uuid not null,
  kit_id uuid not null,
  slip_no integer not null check (slip_no > 0),
  tag_code text collate "C" not null,
  state text collate "C" not null check (state in ('printed', 'keyed', 'void')),
  -- What was keyed, without its spelling: the same slip again says the same.
  fingerprint text collate "C",
  item_id uuid,
  void_reason text collate "C" check (void_reason in ('unused', 'spoilt', 'lost')),
  -- When it was written, as the slip says.
  written_at timestamptz,
  keyed_at timestamptz,
  -- The person who keyed it, and the key that was used.
  keyed_by uuid,
  keyed_with uuid,
  primary key (network_id, kit_id, slip_no),
  check ((state = 'printed') = (keyed_at is null) and (keyed_at is null) = (keyed_by is null) and (keyed_at is null) = (keyed_with is null) and (keyed_at is null) = (fingerprint is null)),
  check ((state = 'keyed') = (item_id is not null)),
  check ((state = 'void') = (void_reason is not null)),
  foreign key (network_id, kit_id) references paper_kit (network_id, id),
  foreign key (network_id, tag_code) references tag (network_id, code),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, keyed_by) references person (network_id, id)
);

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['hand_back_slot', 'hand_back_appointment', 'uncollected', 'referral_quote', 'paper_kit', 'paper_slip'] loop
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
