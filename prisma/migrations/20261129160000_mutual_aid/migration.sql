-- Mutual aid: two networks agree, and things pass from one to the other by hand-overs that both record. Each network keeps rows of its
-- own; no policy is widened for it (a command works in both networks one after the other, in one transaction).

create table aid_agreement (
  network_id uuid not null,
  incident_id uuid not null,
  -- The same in both networks.
  id uuid not null,
  -- `giver`: our things go to the partner and come back; `receiver`: the partner's come to us.
  role text collate "C" not null check (role in ('giver', 'receiver')),
  state text collate "C" not null check (state in ('invited', 'agreed', 'revoked')),
  partner_network_id uuid,
  partner_incident_id uuid,
  partner_name text not null,
  -- Of the invitation; only its hash is kept, and only by the giver.
  invitation_sha256 bytea,
  -- The receiver's record under which the partner's things stand; their families stay with the partner.
  household_id uuid,
  valid_to timestamptz not null,
  created_at timestamptz not null,
  agreed_at timestamptz,
  revoked_at timestamptz,
  primary key (network_id, id),
  check ((state = 'invited') = (partner_network_id is null) or state = 'revoked'),
  check ((role = 'giver') = (invitation_sha256 is not null)),
  check ((role = 'receiver') = (household_id is not null)),
  foreign key (network_id, incident_id) references incident (network_id, id),
  foreign key (network_id, household_id) references household (network_id, id)
);
create index aid_agreement_by_incident on aid_agreement (network_id, incident_id, id);

create table aid_offer (
  network_id uuid not null,
  incident_id uuid not null,
  -- The same in both networks; it is the `handOverId` of the custody events.
  id uuid not null,
  agreement_id uuid not null,
  direction text collate "C" not null check (direction in ('out', 'in')),
  kind text collate "C" not null check (kind in ('hand-over', 'return')),
  state text collate "C" not null check (state in ('open', 'accepted', 'declined', 'withdrawn')),
  -- Our own record of the thing; null on the receiving side until a hand-over is accepted.
  item_id uuid,
  -- What the giver says of it: no name, no address, no words of the family.
  facts jsonb not null,
  offered_at timestamptz not null,
  expires_at timestamptz not null,
  answered_at timestamptz,
  primary key (network_id, id),
  check ((state = 'open') = (answered_at is null)),
  check (item_id is not null or (direction = 'in' and kind = 'hand-over' and state <> 'accepted')),
  foreign key (network_id, agreement_id) references aid_agreement (network_id, id),
  foreign key (network_id, item_id) references item (network_id, id)
);
create index aid_offer_by_incident on aid_offer (network_id, incident_id, id);
create index aid_offer_by_item on aid_offer (network_id, item_id) where item_id is not null;

-- The policies of the first migration, for the new tables.
do $$
declare
  name text;
begin
  foreach name in array array['aid_agreement', 'aid_offer'] loop
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
