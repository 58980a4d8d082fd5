-- Families: how far a yes reaches in money, questions to owners with a deadline, private links to a status page, messages, and what
-- a person must see to.

alter table consent
  -- Up to how much a referral may cost, in the smallest unit of the currency; null: no limit was named.
  add column limit_minor bigint check (limit_minor > 0),
  add column limit_currency text collate "C" check (limit_currency ~ '^[A-Z]{3}$'),
  add constraint consent_limit_check check ((limit_minor is null) = (limit_currency is null) and (limit_minor is null or (scope = 'refer' and given)));

-- The secret of a link is kept by nobody: only its SHA-256 stands here. The link itself names its network, as an invitation to mutual aid does, so that
-- no policy is widened to find it.
create table status_link (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  secret_sha256 bytea not null check (octet_length(secret_sha256) = 32),
  -- Who of the family has it, in their words; sealed.
  for_whom bytea,
  -- Of the pick-up code; a link that went out in a message has none.
  code_salt bytea,
  code_hash bytea,
  code_misses integer not null default 0 check (code_misses >= 0),
  created_at timestamptz not null,
  created_by uuid not null,
  expires_at timestamptz not null check (expires_at > created_at and expires_at <= created_at + interval '30 days'),
  revoked_at timestamptz,
  primary key (network_id, id),
  unique (network_id, secret_sha256),
  check ((code_salt is null) = (code_hash is null)),
  foreign key (network_id, household_id) references household (network_id, id)
);
create index status_link_by_household on status_link (network_id, household_id, id);

create table owner_question (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  item_id uuid not null,
  kind text collate "C" not null check (kind in ('treat', 'freeze', 'refer', 'release', 'photograph', 'other')),
  asked_by text collate "C" not null check (asked_by in ('service', 'person')),
  -- Key or worker of the call.
  asker_id uuid not null,
  -- What the asker adds in both languages, as JSON; sealed.
  own_words bytea,
  answers text[] not null check (cardinality(answers) between 1 and 3 and answers <@ array['yes', 'no', 'call-me']),
  amount_minor bigint check (amount_minor > 0),
  amount_currency text collate "C" check (amount_currency ~ '^[A-Z]{3}$'),
  -- Never a way to let anything go: `hold` keeps it as it is, `general-word` follows what was said for all things of the household.
  if_none text collate "C" not null check (if_none in ('hold', 'general-word')),
  asked_at timestamptz not null,
  deadline_at timestamptz not null check (deadline_at > asked_at),
  told_at timestamptz,
  reminded_at timestamptz,
  state text collate "C" not null check (state in ('open', 'answered', 'expired', 'withdrawn')),
  ended_at timestamptz,
  answer text collate "C" check (answer in ('yes', 'no', 'call-me')),
  answered_by text collate "C" check (answered_by in ('link', 'person')),
  answerer_id uuid,
  consent_id uuid,
  -- An answer after the deadline is kept and shown; it undoes nothing.
  late_answer text collate "C" check (late_answer in ('yes', 'no', 'call-me')),
  late_answered_at timestamptz,
  version integer not null default 1,
  primary key (network_id, id),
  check ((state = 'open') = (ended_at is null)),
  check ((state = 'answered') = (answer is not null) and (answer is null) = (answered_by is null)),
  check ((late_answer is null) = (late_answered_at is null) and (late_answer is null or state in ('expired', 'withdrawn'))),
  check ((amount_minor is null) = (amount_currency is null) and (amount_minor is null or kind = 'refer')),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, consent_id) references consent (network_id, id)
);
create index owner_question_by_incident on owner_question (network_id, incident_id, (state <> 'open'), id);
create index owner_question_by_household on owner_question (network_id, household_id, id);
-- The same is asked once at a time, by whomever.
create unique index owner_question_open on owner_question (network_id, item_id, kind) where state = 'open' and kind <> 'other';

create table family_message (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  template text collate "C" not null check (template in ('taken-in', 'question', 'reminder', 'ready', 'handed-back', 'not-saved')),
  -- What it is about: an item, a question, a hand-back or the household itself.
  subject_id uuid not null,
  state text collate "C" not null check (state in ('waiting', 'sending', 'sent', 'unclear', 'given-up')),
  tries integer not null default 0 check (tries >= 0),
  queued_at timestamptz not null,
  next_at timestamptz not null,
  attempt_at timestamptz,
  ended_at timestamptz,
  channel text collate "C" check (channel in ('email', 'sms')),
  language text collate "C" check (language in ('en', 'es')),
  -- The address or number it goes to, as it was at the first attempt; sealed.
  recipient bytea,
  link_id uuid,
  -- A code of ours; never what a server said, which may hold addresses.
  failure text collate "C",
  primary key (network_id, id),
  unique (network_id, household_id, template, subject_id),
  check ((state in ('sent', 'unclear', 'given-up')) = (ended_at is not null)),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, link_id) references status_link (network_id, id)
);
create index family_message_by_household on family_message (network_id, household_id, id);

create table family_matter (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  kind text collate "C" not null check (kind in ('consent-withdrawn', 'question-expired', 'answer-late', 'call-asked', 'message-unclear', 'message-given-up')),
  item_id uuid,
  question_id uuid,
  message_id uuid,
  consent_id uuid,
  -- The step that was under way when the owner withdrew.
  step text collate "C",
  -- What a trained lead should do, as a message.
  advice_text text not null,
  advice_values jsonb,
  opened_at timestamptz not null,
  settled_at timestamptz,
  settled_by uuid,
  -- Sealed: words about a family.
  settlement bytea,
  primary key (network_id, id),
  check ((settled_at is null) = (settled_by is null)),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, question_id) references owner_question (network_id, id),
  foreign key (network_id, message_id) references family_message (network_id, id),
  foreign key (network_id, consent_id) references consent (network_id, id),
  foreign key (network_id, settled_by) references person (network_id, id)
);
create index family_matter_by_incident on family_matter (network_id, incident_id, (settled_at is not null), id);
create index family_matter_by_item on family_matter (network_id, item_id) where item_id is not null and settled_at is null;

-- The kinds that stand so far and these: other migrations of the same days add theirs.
do $$
declare
  kinds text;
begin
  select pg_get_expr(conbin, conrelid) into strict kinds from pg_constraint where conrelid = 'outbox'::regclass and conname = 'outbox_kind_check';
  alter table outbox drop constraint outbox_kind_check;
  execute format('alter table outbox add constraint outbox_kind_check check (%s or kind in (''family.look'', ''family.message''))', kinds);
end
$$;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['status_link', 'owner_question', 'family_message', 'family_matter'] loop
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
