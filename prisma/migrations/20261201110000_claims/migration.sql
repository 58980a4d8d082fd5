-- Things whose owner nobody knows, who says that one is theirs, and how two people decide it; and households found by what their contact says.

-- One record for each incident holds the things that were found until their owner is known. It is no family: it has no contact, nobody speaks for it.
alter table household add column unknown_owner boolean not null default false;
create unique index household_unknown_owner on household (network_id, incident_id) where unknown_owner;

create table found_item (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  item_id uuid not null,
  found_on date not null,
  -- Where, in words, and by whom; sealed under the key of the network, because it is not yet known whom it is about.
  place bytea,
  finder bytea,
  recorded_by uuid not null,
  recorded_at timestamptz not null,
  -- The claim by which the owner became known.
  granted_claim_id uuid,
  primary key (network_id, id),
  unique (network_id, item_id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, recorded_by) references person (network_id, id)
);

-- What only the owner can know. Sealed, and shown to nobody but those who decide about a claim, after its answers are in.
create table owner_mark (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  found_item_id uuid not null,
  item_id uuid not null,
  question bytea,
  answer bytea,
  recorded_by uuid not null,
  recorded_with uuid not null,
  recorded_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, found_item_id) references found_item (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, recorded_by) references person (network_id, id)
);
create index owner_mark_by_found_item on owner_mark (network_id, found_item_id, id);

-- The thing is named by its found record alone, so that what is held about a household never holds the claims of others on its things.
create table ownership_claim (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  found_item_id uuid not null,
  household_id uuid not null,
  state text collate "C" not null check (state in ('open', 'granted', 'declined', 'withdrawn')),
  reason text collate "C" check (reason in ('not-enough-agreed', 'cannot-be-told', 'another-claim-accepted', 'taken-back', 'household-erased')),
  -- What the household said, as JSON; sealed for it.
  answers bytea,
  taken_by uuid not null,
  taken_with uuid not null,
  taken_at timestamptz not null,
  ended_at timestamptz,
  version integer not null default 1,
  primary key (network_id, id),
  check ((state = 'open') = (ended_at is null)),
  check ((state in ('declined', 'withdrawn')) = (reason is not null)),
  foreign key (network_id, found_item_id) references found_item (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, taken_by) references person (network_id, id)
);
create index ownership_claim_by_found_item on ownership_claim (network_id, found_item_id, id);
create index ownership_claim_by_household on ownership_claim (network_id, household_id, taken_at);
-- Of one household one at a time; and whatever happens, one owner.
create unique index ownership_claim_open on ownership_claim (network_id, found_item_id, household_id) where state = 'open';
create unique index ownership_claim_granted on ownership_claim (network_id, found_item_id) where state = 'granted';
alter table found_item add foreign key (network_id, granted_claim_id) references ownership_claim (network_id, id);

create table claim_decision (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  claim_id uuid not null,
  person_id uuid not null,
  principal_id uuid not null,
  accepts boolean not null,
  reason text collate "C" check (reason in ('not-enough-agreed', 'cannot-be-told')),
  decided_at timestamptz not null,
  primary key (network_id, id),
  -- Nobody decides twice, neither under another name nor with another key.
  unique (network_id, claim_id, person_id),
  unique (network_id, claim_id, principal_id),
  check (accepts = (reason is null)),
  foreign key (network_id, claim_id) references ownership_claim (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id)
);

-- Who has seen what only the owner can know, and so takes no claimant's answers about this thing any more.
create table mark_look (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  found_item_id uuid not null,
  claim_id uuid not null,
  person_id uuid not null,
  principal_id uuid not null,
  looked_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, claim_id, person_id, principal_id),
  foreign key (network_id, claim_id) references ownership_claim (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id)
);
create index mark_look_by_found_item on mark_look (network_id, found_item_id);

-- By what a household is found: whole names, numbers and addresses of mail as blind words (see item_word).
create table household_word (
  network_id uuid not null,
  incident_id uuid not null,
  household_id uuid not null,
  kind text collate "C" not null check (kind in ('name', 'phone', 'email')),
  word bytea not null check (octet_length(word) = 32),
  primary key (network_id, incident_id, kind, word, household_id),
  foreign key (network_id, household_id) references household (network_id, id)
);
create index household_word_by_household on household_word (network_id, household_id);

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['found_item', 'owner_mark', 'ownership_claim', 'claim_decision', 'mark_look', 'household_word'] loop
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
grant update on found_item, owner_mark, ownership_claim to wl_app;
grant delete on household_word to wl_app;

-- What was decided and who looked is never edited.
create trigger claim_decision_append_only before update or delete on claim_decision for each row execute function refuse_change();
create trigger mark_look_append_only before update or delete on mark_look for each row execute function refuse_change();

-- Contacts from before get their words by the worker, one row of the outbox for each incident (see personal_upkeep).
alter table household_contact add column words_kept boolean not null default false;
create index household_contact_without_words on household_contact (network_id, incident_id, household_id) where not words_kept;
alter table household no force row level security;
alter table outbox no force row level security;
insert into outbox (network_id, id, incident_id, kind, subject_id)
select distinct on (network_id, incident_id) network_id, uuidv7(), incident_id, 'personal.seal', incident_id from household order by network_id, incident_id;
alter table outbox force row level security;
alter table household force row level security;
