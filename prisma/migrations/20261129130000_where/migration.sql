-- Where things are: scans with their verdicts, the words by which a thing is found, and the day of its photograph.

-- A scan that found a missing thing without a person's word is evidence, too.
alter table sighting drop constraint sighting_verdict_check;
alter table sighting add constraint sighting_verdict_check check (verdict in ('seen-again', 'seen-late', 'claims-elsewhere', 'found', 'left-the-network'));

-- One row for every scan that was ever sent, with what was said to it: the same scan again gets the same answer, and one that was
-- refused stays as evidence. Its id is the device's, so it is one of the incident and not of the network: who may not see the other
-- incident learns nothing from a clash.
create table scan (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  -- SHA-256 of what was sent, so that the same id with other content is noticed.
  fingerprint text collate "C" not null check (fingerprint ~ '^[0-9a-f]{64}$'),
  item_id uuid,
  container_id uuid,
  place_kind text collate "C",
  place_id uuid,
  seen_at timestamptz not null,
  -- As it was sent, so that even an unknown tag is not lost.
  said jsonb not null,
  actor_id uuid not null,
  recorded_at timestamptz not null,
  -- Null only while the transaction that took the id decides.
  verdict text collate "C" check (verdict in ('applied', 'seen-again', 'seen-late', 'disputed', 'refused')),
  -- The event that it made, if any.
  event_kind text collate "C",
  event_seq integer,
  -- Code, sentence and members of a problem document; null where there is none.
  problem jsonb,
  primary key (network_id, incident_id, id),
  check ((place_kind is null) = (place_id is null)),
  check ((event_kind is null) = (event_seq is null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, container_id) references container (network_id, id)
);
create index scan_by_item on scan (network_id, item_id, recorded_at) where item_id is not null;
create index scan_by_container on scan (network_id, container_id, recorded_at) where container_id is not null;

-- Numbers after which a thing is looked for.
alter table calibration_value drop constraint calibration_value_library_check;
alter table calibration_value add constraint calibration_value_library_check check (library in ('people', 'climate', 'alarms', 'planning', 'care', 'sight'));

-- The day on which the photograph of it was taken, as somebody said.
alter table item add column photographed_on date;

-- The words of a text, each once: lower case, without Latin accents, divided where there is space or punctuation. In scripts that
-- write no spaces a whole run is one word, which is found by its beginning.
create function search_words(said text) returns text[] language sql immutable parallel safe return (
  select coalesce(array_agg(distinct left(word, 40)), '{}')
  from regexp_split_to_table(regexp_replace(normalize(lower(said collate "pg_unicode_fast"), nfkd), '[\u0300-\u036f]', '', 'g') collate "pg_unicode_fast", '[[:space:][:punct:]]+') as word
  where length(word) > 1 or octet_length(word) > 1
);

-- Text search below a policy can use no index, because its operators are not leakproof; equality and ranges of "C" text are.
create table item_word (
  network_id uuid not null,
  incident_id uuid not null,
  word text collate "C" not null,
  item_id uuid not null,
  primary key (network_id, incident_id, word, item_id),
  foreign key (network_id, item_id) references item (network_id, id)
);

create function words_of_item(description text, family_words text, photograph_ref text, photographed_on date) returns text[] language sql stable parallel safe return
  search_words(description || ' ' || family_words || ' ' || photograph_ref)
  || case when photographed_on is null then '{}'::text[] else array[to_char(photographed_on, 'YYYY-MM-DD')] end;

-- Kept by the database, so that no way of writing an item leaves it out.
create function item_words_kept() returns trigger language plpgsql as $$
declare
  v_before text[] := '{}';
  v_after text[] := words_of_item(new.description, new.family_words, new.photograph_ref, new.photographed_on);
begin
  if tg_op = 'UPDATE' then
    v_before := words_of_item(old.description, old.family_words, old.photograph_ref, old.photographed_on);
    delete from item_word where network_id = new.network_id and incident_id = new.incident_id and item_id = new.id
      and word = any (array(select unnest(v_before) except select unnest(v_after)));
  end if;
  insert into item_word (network_id, incident_id, word, item_id)
  select new.network_id, new.incident_id, word, new.id from (select unnest(v_after) as word except select unnest(v_before)) as fresh;
  return null;
end
$$;
create trigger item_words_kept after insert or update of description, family_words, photograph_ref, photographed_on on item
  for each row execute function item_words_kept();

-- What was taken in before is found, too. The owner is bound by the policies, so they are lifted for this statement.
alter table item no force row level security;
insert into item_word (network_id, incident_id, word, item_id)
select i.network_id, i.incident_id, w.word, i.id from item i cross join lateral unnest(words_of_item(i.description, i.family_words, i.photograph_ref, i.photographed_on)) as w (word);
alter table item force row level security;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['scan', 'item_word'] loop
    execute format('alter table %I enable row level security', name);
    execute format('alter table %I force row level security', name);
    execute format($p$create policy of_network on %I
      using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
      with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid)$p$, name);
    execute format($p$create policy of_incident on %I as restrictive
      using (nullif(current_setting('app.incident_id', true), '') is null
             or incident_id = nullif(current_setting('app.incident_id', true), '')::uuid)$p$, name);
    execute format('alter table %I owner to wl_owner', name);
  end loop;
end
$$;
-- The verdict is written after the id was taken, in the same transaction.
grant select, insert, update on scan to wl_app;
grant select, insert, update, delete on item_word to wl_app;
