-- The choices of a network where sources disagree, what a lead chose against, and looks that correct an earlier one.

-- Which sides of the marked choices of the rule book a network follows. Each decision is complete: what it leaves out stands
-- at its default. The highest number is in force.
create table rule_book_choice (
  network_id uuid not null,
  id uuid not null,
  -- From 1 without gaps: a decision names the one it was made after (If-Match).
  number integer not null check (number >= 1),
  -- { choice: option }, only what differs from the default.
  choices jsonb not null check (jsonb_typeof(choices) = 'object'),
  -- Version of the rule book with these choices, as results record it.
  version text not null,
  reason text not null check (length(reason) between 3 and 2000),
  -- The lead who answers for it.
  decided_by uuid not null,
  decided_at timestamptz not null,
  -- The key that sent it.
  principal_id uuid not null,
  primary key (network_id, number),
  unique (network_id, id),
  foreign key (network_id) references network (network_id),
  foreign key (network_id, decided_by) references person (network_id, id)
);
create trigger rule_book_choice_append_only before update or delete on rule_book_choice for each row execute function refuse_change();
create trigger rule_book_choice_no_truncate before truncate on rule_book_choice for each statement execute function refuse_change();

-- Why a look says something else than an earlier one about what cannot change by itself.
alter table assessment add column seen_again_reason text check (length(seen_again_reason) between 3 and 2000);

-- What the rule book put first when a lead chose otherwise, by which version, and what the chosen way still lacked. Null in
-- rows from before.
alter table disposition_override
  add column instead_of text collate "C",
  add column rule_book_version text,
  add column open_needs jsonb;
create index disposition_override_by_incident on disposition_override (network_id, incident_id, id);

alter table outbox drop constraint outbox_kind_check;
alter table outbox add constraint outbox_kind_check check (kind in ('plan.requested', 'intake_import.submitted', 'rule_book.chosen'));

-- Results of the first rule book lack what later ones say; for them it says nothing. The owner is bound by the policies too, so
-- they are lifted for this statement.
alter table triage_result no force row level security;
alter table assessment no force row level security;
update triage_result t
   set result = jsonb_build_object('apartFrom', '[]'::jsonb, 'freezer', null, 'storage', '[]'::jsonb, 'treatedAs', coalesce(a.observed -> 'materialClass', '"unknown"'::jsonb)) || t.result
  from assessment a
 where a.network_id = t.network_id and a.id = t.assessment_id and not t.result ? 'treatedAs';
alter table assessment force row level security;
alter table triage_result force row level security;

-- The policies of the first migration, for the new table; it belongs to no incident.
alter table rule_book_choice enable row level security;
alter table rule_book_choice force row level security;
create policy of_network on rule_book_choice
  using (network_id = nullif(current_setting('app.network_id', true), '')::uuid)
  with check (network_id = nullif(current_setting('app.network_id', true), '')::uuid);
alter table rule_book_choice owner to wl_owner;
grant select, insert on rule_book_choice to wl_app;
