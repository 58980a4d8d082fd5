-- Signed roots over the custody events of a network, so that not even the owner of the database can rewrite them unseen.

-- Public keys that have signed roots of a network. An old one stays when the key is changed.
create table custody_key (
  network_id uuid not null references network (network_id),
  -- First 16 hex digits of the SHA-256 of the key.
  key_id text collate "C" not null check (key_id ~ '^[0-9a-f]{16}$'),
  -- Ed25519, 32 bytes.
  public_key text collate "C" not null check (public_key ~ '^[0-9a-f]{64}$'),
  first_used_at timestamptz not null,
  primary key (network_id, key_id)
);

create table custody_root (
  network_id uuid not null,
  root_no integer not null check (root_no > 0),
  -- Every event under it was recorded at or after `period_from` and before `period_to`.
  period_from timestamptz not null,
  period_to timestamptz not null check (period_to > period_from),
  event_count integer not null check (event_count > 0),
  merkle_root text collate "C" not null check (merkle_root ~ '^[0-9a-f]{64}$'),
  prev_root_hash text collate "C" not null check (prev_root_hash ~ '^[0-9a-f]{64}$'),
  key_id text collate "C" not null,
  -- Version of the canonical form of the statement.
  form integer not null,
  hash text collate "C" not null check (hash ~ '^[0-9a-f]{64}$'),
  signature text collate "C" not null check (signature ~ '^[0-9a-f]{128}$'),
  primary key (network_id, root_no),
  foreign key (network_id, key_id) references custody_key (network_id, key_id)
);

-- Hashes of the leaves of a root, 256 in a row, with the root of their subtree. They name nothing, so that one event can be proved
-- to somebody who may not see the other events.
create table custody_root_block (
  network_id uuid not null,
  root_no integer not null,
  block_no integer not null check (block_no >= 0),
  leaf_hashes bytea not null check (octet_length(leaf_hashes) between 32 and 8192 and octet_length(leaf_hashes) % 32 = 0),
  subtree bytea not null check (octet_length(subtree) = 32),
  primary key (network_id, root_no, block_no),
  foreign key (network_id, root_no) references custody_root (network_id, root_no)
);
-- Hashes do not compress, and one of them is read out of the middle.
alter table custody_root_block alter column leaf_hashes set storage external;

-- Which leaf of which root an event is: each event of one root alone. Without a foreign key to the event, whose check would write
-- to the row of every event again; `verify` looks for events that are not there.
create table custody_root_event (
  network_id uuid not null,
  incident_id uuid not null,
  -- The item or container whose event it is.
  chain_id uuid not null,
  seq integer not null check (seq > 0),
  root_no integer not null,
  leaf_index integer not null check (leaf_index >= 0),
  primary key (network_id, chain_id, seq),
  unique (network_id, root_no, leaf_index),
  foreign key (network_id, root_no) references custody_root (network_id, root_no)
);

-- Events that wait for a root. Written with the event and taken away with the root, each in one transaction: an event that is
-- committed late is in the next root, and none is in two or in none, whatever the clocks say.
create table custody_root_waiting (
  network_id uuid not null,
  incident_id uuid not null,
  chain_id uuid not null,
  seq integer not null,
  recorded_at timestamptz not null,
  hash text collate "C" not null,
  primary key (network_id, chain_id, seq),
  foreign key (network_id, incident_id) references incident (network_id, id)
);
create index custody_root_waiting_by_time on custody_root_waiting (network_id, recorded_at, chain_id, seq);

-- One look of each network lies in the outbox for ever; the worker that does it writes the next one. Not unique, so that two first
-- intakes need not wait for each other: the worker leaves only one.
alter table outbox drop constraint outbox_kind_check;
alter table outbox add constraint outbox_kind_check check (kind in ('plan.requested', 'plan.what_if', 'intake_import.submitted', 'rule_book.chosen', 'climate.readings', 'climate.tick', 'custody.root'));
create index outbox_custody_root on outbox (network_id) where kind = 'custody.root' and done_at is null and dead_at is null;

create function event_awaits_root() returns trigger language plpgsql as $$
declare
  v_chain uuid;
begin
  if tg_table_name = 'custody_event' then v_chain := new.item_id; else v_chain := new.container_id; end if;
  insert into custody_root_waiting (network_id, incident_id, chain_id, seq, recorded_at, hash)
  values (new.network_id, new.incident_id, v_chain, new.seq, new.recorded_at, new.hash);
  if new.seq = 1 and not exists (select from outbox where network_id = new.network_id and kind = 'custody.root' and done_at is null and dead_at is null) then
    insert into outbox (network_id, id, incident_id, kind, subject_id) values (new.network_id, uuidv7(), new.incident_id, 'custody.root', new.network_id);
  end if;
  return null;
end
$$;
create trigger custody_event_awaits_root after insert on custody_event for each row execute function event_awaits_root();
create trigger container_event_awaits_root after insert on container_event for each row execute function event_awaits_root();

-- What was recorded before waits, too. The owner is bound by the policies, so they are lifted for these statements.
alter table custody_event no force row level security;
alter table container_event no force row level security;
alter table outbox no force row level security;
insert into custody_root_waiting (network_id, incident_id, chain_id, seq, recorded_at, hash)
select network_id, incident_id, item_id, seq, recorded_at, hash from custody_event;
insert into custody_root_waiting (network_id, incident_id, chain_id, seq, recorded_at, hash)
select network_id, incident_id, container_id, seq, recorded_at, hash from container_event;
insert into outbox (network_id, id, incident_id, kind, subject_id)
select distinct on (network_id) network_id, uuidv7(), incident_id, 'custody.root', network_id from custody_event order by network_id, incident_id;
alter table outbox force row level security;
alter table container_event force row level security;
alter table custody_event force row level security;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['custody_key', 'custody_root', 'custody_root_block', 'custody_root_event', 'custody_root_waiting'] loop
    execute format('alter table %I enable row level security', name);
    execute format('alter table %I force row level security', name);
    execute format($p$create policy of_network on %I
      using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
      with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid)$p$, name);
    execute format('alter table %I owner to wl_owner', name);
  end loop;
  foreach name in array array['custody_root_event', 'custody_root_waiting'] loop
    execute format($p$create policy of_incident on %I as restrictive
      using (nullif(current_setting('app.incident_id', true), '') is null
             or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid)$p$, name);
  end loop;
  -- What a root says stays as it was said.
  foreach name in array array['custody_key', 'custody_root', 'custody_root_block', 'custody_root_event'] loop
    execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', name || '_append_only', name);
    execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', name || '_no_truncate', name);
  end loop;
end
$$;
grant select, insert on custody_key, custody_root, custody_root_block, custody_root_event to wl_app;
grant select, insert, delete on custody_root_waiting to wl_app;
