-- Personal data: what names a family is sealed with a key of its household, wrapped by a key of its network, wrapped by the master key,
-- which is never in the database. Who destroys a household's key has destroyed what was said of it, wherever a copy of a row lies.

create table network_key (
  network_id uuid primary key references network (network_id),
  -- 1, 2, ...: which master key wraps it.
  master_version integer not null check (master_version > 0),
  wrapped bytea not null,
  created_at timestamptz not null default clock_timestamp()
);

create table household_key (
  network_id uuid not null,
  incident_id uuid not null,
  household_id uuid not null,
  -- Null once it was destroyed; what it sealed is then unreadable for good.
  wrapped bytea,
  created_at timestamptz not null default clock_timestamp(),
  destroyed_at timestamptz,
  primary key (network_id, household_id),
  check ((wrapped is null) = (destroyed_at is not null)),
  foreign key (network_id, household_id) references household (network_id, id)
);

-- A key that was destroyed never comes back: a new one would let things be said of a household that was erased.
create function household_key_stays() returns trigger language plpgsql as $$
begin
  if old.destroyed_at is not null then raise exception 'a destroyed key stays destroyed'; end if;
  if new.wrapped is not null and new.wrapped <> old.wrapped then raise exception 'the key of a household is never exchanged'; end if;
  return new;
end
$$;
create trigger household_key_stays before update on household_key for each row execute function household_key_stays();

-- What stood in the clear is sealed by the worker, row by row (`personal.seal`); until a row's turn comes the clear columns still hold it.
alter table household_contact
  alter column name drop not null,
  alter column phone drop not null, alter column phone drop default,
  alter column email drop not null, alter column email drop default,
  alter column address drop not null, alter column address drop default,
  add column sealed bytea,
  add constraint household_contact_sealed check (sealed is null or (name is null and phone is null and email is null and address is null));
alter table item
  alter column family_words drop not null, alter column family_words drop default,
  add column family_words_sealed bytea,
  add constraint item_family_words_sealed check (family_words_sealed is null or family_words is null);
alter table consent
  alter column note drop not null, alter column note drop default,
  add column note_sealed bytea,
  add constraint consent_note_sealed check (note_sealed is null or note is null);
alter table intake_import_row
  alter column cells drop not null,
  add column cells_sealed bytea,
  add constraint intake_import_row_sealed check ((cells is null) <> (cells_sealed is null));
create index household_contact_in_clear on household_contact (network_id, incident_id, household_id) where sealed is null;
create index item_family_words_in_clear on item (network_id, incident_id, id) where family_words is not null;
create index consent_note_in_clear on consent (network_id, incident_id, id) where note is not null;

-- A family's words are no longer words of the table: what is found by them is put there by the program as blind words, which begin with `~`
-- as no word of a text does.
create or replace function item_words_kept() returns trigger language plpgsql as $$
declare
  v_before text[] := '{}';
  v_after text[] := words_of_item(new.description, coalesce(new.family_words, ''), new.photograph_ref, new.photographed_on);
begin
  if tg_op = 'UPDATE' then
    v_before := words_of_item(old.description, coalesce(old.family_words, ''), old.photograph_ref, old.photographed_on);
    delete from item_word where network_id = new.network_id and incident_id = new.incident_id and item_id = new.id
      and word = any (array(select unnest(v_before) except select unnest(v_after)));
  end if;
  insert into item_word (network_id, incident_id, word, item_id)
  select new.network_id, new.incident_id, word, new.id from (select unnest(v_after) as word except select unnest(v_before)) as fresh;
  return null;
end
$$;

-- What was known of a household is erased once; this stays, so that it is known that something was there, who decided it and when.
create table household_erasure (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  reason text collate "C" not null check (reason in ('owner-asked', 'retention-ended', 'registered-in-error')),
  -- Null when the retention rule of the network did it.
  decided_by uuid,
  principal_id uuid not null,
  items integer not null check (items >= 0),
  files integer not null check (files >= 0),
  -- Custody events of earlier versions hold words in the chain itself, which nothing can take out.
  words_in_chain integer not null check (words_in_chain >= 0),
  erased_at timestamptz not null,
  primary key (network_id, id),
  unique (network_id, household_id),
  check ((decided_by is null) = (reason = 'retention-ended')),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, decided_by) references person (network_id, id)
);

-- A household that must not be erased, and why (sealed).
create table household_hold (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  reason bytea,
  placed_by uuid not null,
  placed_at timestamptz not null,
  lifted_by uuid,
  lifted_at timestamptz,
  version integer not null default 1,
  primary key (network_id, id),
  check ((lifted_at is null) = (lifted_by is null)),
  foreign key (network_id, household_id) references household (network_id, id),
  foreign key (network_id, placed_by) references person (network_id, id),
  foreign key (network_id, lifted_by) references person (network_id, id)
);
create unique index household_hold_open on household_hold (network_id, household_id) where lifted_at is null;

-- Why something passed, in words: the chain holds a salted hash of them, and the words stand here, sealed for the household whose thing it was
-- (for the network, where a container has things of several). Once they are gone the chain is as whole as before.
create table custody_words (
  network_id uuid not null,
  incident_id uuid not null,
  -- Of the item or container.
  chain_id uuid not null,
  seq integer not null,
  household_id uuid,
  -- The words and the salts of their hashes; null once they were erased.
  sealed bytea,
  primary key (network_id, chain_id, seq),
  foreign key (network_id, household_id) references household (network_id, id)
);
create index custody_words_by_household on custody_words (network_id, household_id);

-- The answer that a command gave is kept for whoever repeats it. What it says of households is sealed like everything else that is said of them.
alter table idempotency_record
  add column body_sealed bytea,
  add column household_ids uuid[] not null default '{}';
create index idempotency_record_of_households on idempotency_record using gin (household_ids) where household_ids <> '{}';

drop function begin_command(uuid, text, uuid, text);
create function begin_command(p_principal uuid, p_operation text, p_key uuid, p_fingerprint text)
returns table (verdict text, status integer, body jsonb, headers jsonb, body_sealed bytea, household_ids uuid[])
language plpgsql as $$
declare
  v_network uuid := nullif(current_setting('app.network_id', true), '')::uuid;
  r idempotency_record%rowtype;
begin
  if not pg_try_advisory_xact_lock(hashtextextended(v_network::text || p_principal::text || p_operation || p_key::text, 0)) then
    return query select 'running'::text, null::integer, null::jsonb, null::jsonb, null::bytea, null::uuid[];
    return;
  end if;
  select * into r from idempotency_record i
   where i.network_id = v_network and i.principal_id = p_principal and i.operation = p_operation and i.idempotency_key = p_key;
  if not found then
    return query select 'new'::text, null::integer, null::jsonb, null::jsonb, null::bytea, null::uuid[];
  elsif r.fingerprint <> p_fingerprint and r.fingerprint <> 'erased' then
    return query select 'mismatch'::text, null::integer, null::jsonb, null::jsonb, null::bytea, null::uuid[];
  else
    return query select 'replay'::text, r.status, r.body, r.headers, r.body_sealed, r.household_ids;
  end if;
end
$$;
alter function begin_command(uuid, text, uuid, text) owner to wl_owner;
revoke all on function begin_command(uuid, text, uuid, text) from public;
grant execute on function begin_command(uuid, text, uuid, text) to wl_app;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['network_key', 'household_key', 'custody_words', 'household_erasure', 'household_hold'] loop
    execute format('alter table %I enable row level security', name);
    execute format('alter table %I force row level security', name);
    execute format($p$create policy of_network on %I
      using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
      with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid)$p$, name);
    execute format('alter table %I owner to wl_owner', name);
    execute format('grant select, insert, update on %I to wl_app', name);
  end loop;
  foreach name in array array['household_key', 'custody_words', 'household_erasure', 'household_hold'] loop
    execute format($p$create policy of_incident on %I as restrictive
      using (nullif(current_setting('app.incident_id', true), '') is null
             or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid)$p$, name);
  end loop;
end
$$;
