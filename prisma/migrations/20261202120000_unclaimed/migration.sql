-- What was found and nobody claims: the dated path of what nobody fetches, for one thing without a household, ended by two people; and the referral of
-- such a thing where waiting would ruin it.

alter table calibration_value drop constraint calibration_value_library_check;
alter table calibration_value add constraint calibration_value_library_check check (library in ('people', 'climate', 'alarms', 'planning', 'care', 'sight', 'retention', 'messages', 'found'));

-- The path of one found thing. Its household is the record of unknown owners, whose other things have paths of their own.
alter table uncollected add column item_id uuid;
alter table uncollected add foreign key (network_id, item_id) references item (network_id, id);
alter table uncollected drop constraint uncollected_state_check;
-- `ended`: its owner became known, or its record was joined to another one.
alter table uncollected add constraint uncollected_state_check check (state in ('open', 'decided', 'collected', 'ended'));
alter table uncollected drop constraint uncollected_decision_check;
alter table uncollected add constraint uncollected_decision_check check (decision in ('keep-longer', 'bring-to-them', 'store-elsewhere', 'search-for-them', 'hand-to-authority', 'dispose'));
alter table uncollected add constraint uncollected_decision_of_its_kind check (decision is null or decision = 'keep-longer' or (item_id is not null) = (decision in ('hand-to-authority', 'dispose')));
alter table uncollected add constraint uncollected_end_of_its_kind check ((state <> 'ended' or item_id is not null) and (state <> 'collected' or item_id is null));
drop index uncollected_open;
create unique index uncollected_open on uncollected (network_id, household_id) where state = 'open' and item_id is null;
create unique index uncollected_open_item on uncollected (network_id, item_id) where state = 'open' and item_id is not null;
create index uncollected_by_item on uncollected (network_id, item_id, id) where item_id is not null;
create index found_item_by_incident on found_item (network_id, incident_id, id);

-- What one of two people says; the reason is sealed for the network, because nobody knows whom it is about.
create table unclaimed_decision (
  network_id uuid not null,
  incident_id uuid not null,
  id uuid not null,
  uncollected_id uuid not null,
  item_id uuid not null,
  person_id uuid not null,
  principal_id uuid not null,
  decision text collate "C" not null check (decision in ('keep-longer', 'hand-to-authority', 'dispose')),
  reason bytea,
  decided_at timestamptz not null,
  primary key (network_id, id),
  -- Nobody decides twice, neither under another name nor with another key.
  unique (network_id, uncollected_id, person_id),
  unique (network_id, uncollected_id, principal_id),
  foreign key (network_id, uncollected_id) references uncollected (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id),
  foreign key (network_id, person_id) references person (network_id, id)
);
create index unclaimed_decision_by_item on unclaimed_decision (network_id, item_id);

-- Where nobody can agree a lead answers for a referral, and says who pays; nobody, where nothing is said.
alter table referral alter column consent_id drop not null;
alter table referral add column decided_by uuid;
alter table referral add column payer text;
alter table referral add foreign key (network_id, decided_by) references person (network_id, id);
alter table referral add constraint referral_allowed check ((consent_id is null) = (decided_by is not null) and (payer is null or decided_by is not null));

-- The policies of the first migration, for the new table.
do $$
declare
  name text;
begin
  foreach name in array array['unclaimed_decision'] loop
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

-- What was decided is never edited; an erasure takes why.
create function only_the_sealed_reason_goes() returns trigger language plpgsql as $$
begin
  if tg_op = 'UPDATE' and to_jsonb(new) - 'reason' = to_jsonb(old) - 'reason' and (new.reason is null or new.reason = old.reason) then return new; end if;
  raise exception '% is append-only', tg_table_name using errcode = 'restrict_violation';
end
$$;
create trigger unclaimed_decision_append_only before update or delete on unclaimed_decision for each row execute function only_the_sealed_reason_goes();
grant update (reason) on unclaimed_decision to wl_app;
