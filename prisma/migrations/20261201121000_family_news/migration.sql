-- What families are told without anybody asking for it: only those who wish it, one message for what happens together, never twice.

-- Whether a family wishes to be written to; nothing is edited, the newest counts.
create table message_wish (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  wish text collate "C" not null check (wish in ('messages', 'no-messages')),
  manner text collate "C" not null check (manner in ('spoken', 'written')),
  recorded_by uuid not null,
  recorded_at timestamptz not null,
  primary key (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id)
);
create index message_wish_by_household on message_wish (network_id, household_id, id);

-- What happened and is to be told; ids alone.
create table family_news (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  kind text collate "C" not null check (kind in ('taken-in', 'ready', 'handed-back', 'let-go', 'uncollected')),
  -- What it is about: an item, a hand-back, a wish, or the path of what nobody fetches with the number of the reminder.
  subject_id uuid not null,
  part integer not null default 0 check (part >= 0),
  noted_at timestamptz not null,
  -- Told by the message, or not told, and when that was settled.
  settled_at timestamptz,
  message_id uuid,
  primary key (network_id, id),
  unique (network_id, household_id, kind, subject_id, part),
  check (message_id is null or settled_at is not null),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, message_id) references family_message (network_id, id)
);
create index family_news_open on family_news (network_id, household_id, id) where settled_at is null;

-- Where a mail server said for good that it takes nothing: no message goes there by itself any more.
create table unreached_address (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  channel text collate "C" not null check (channel in ('email', 'sms')),
  -- Sealed.
  address bytea,
  message_id uuid not null,
  refused_at timestamptz not null,
  -- When a message was taken there after all.
  reached_at timestamptz,
  primary key (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, message_id) references family_message (network_id, id)
);
create index unreached_address_by_household on unreached_address (network_id, household_id, id);

-- Told by itself, not because a person or a question wanted it.
alter table family_message add column automatic boolean not null default false;
alter table family_message drop constraint family_message_template_check;
alter table family_message add constraint family_message_template_check check (template in ('taken-in', 'question', 'reminder', 'ready', 'handed-back', 'not-saved', 'let-go', 'uncollected'));
alter table family_matter drop constraint family_matter_kind_check;
alter table family_matter add constraint family_matter_kind_check check (kind in ('consent-withdrawn', 'question-expired', 'answer-late', 'call-asked', 'message-unclear', 'message-given-up', 'address-not-reached'));

-- The kinds that stand so far and this one: other migrations of the same days add theirs.
do $$
declare
  kinds text;
begin
  select pg_get_expr(conbin, conrelid) into strict kinds from pg_constraint where conrelid = 'outbox'::regclass and conname = 'outbox_kind_check';
  alter table outbox drop constraint outbox_kind_check;
  execute format('alter table outbox add constraint outbox_kind_check check (%s or kind in (''family.news''))', kinds);
end
$$;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['message_wish', 'family_news', 'unreached_address'] loop
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
