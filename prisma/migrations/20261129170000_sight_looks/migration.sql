-- Things that nobody has met for too long surface by themselves: one look of each incident lies in the outbox ahead of its time, and
-- the worker that does it writes the next one.

alter table outbox drop constraint outbox_kind_check;
alter table outbox add constraint outbox_kind_check check (kind in ('plan.requested', 'plan.what_if', 'intake_import.submitted', 'rule_book.chosen', 'climate.readings', 'climate.tick', 'custody.root', 'hand_over.due', 'sight.look'));
create unique index outbox_sight_look on outbox (network_id, subject_id) where kind = 'sight.look' and done_at is null and dead_at is null;

alter table alarm drop constraint alarm_kind_check;
alter table alarm add constraint alarm_kind_check check (kind in
  ('room-over-cap', 'room-mould-possible', 'clock-amber', 'clock-red', 'dehumidifier-stopped', 'dehumidifier-short', 'freezer-warm', 'freezer-thawing', 'sensor-silent', 'things-unseen'));
alter table alarm drop constraint alarm_subject_kind_check;
alter table alarm add constraint alarm_subject_kind_check check (subject_kind in ('drying-room', 'dehumidifier', 'freezer', 'incident'));

-- Whoever takes in the first thing sees to it; two first intakes wait for each other once.
create function item_is_looked_for() returns trigger language plpgsql as $$
begin
  if not exists (select from outbox where network_id = new.network_id and subject_id = new.incident_id and kind = 'sight.look' and done_at is null and dead_at is null) then
    insert into outbox (network_id, id, incident_id, kind, subject_id, not_before)
    values (new.network_id, uuidv7(), new.incident_id, 'sight.look', new.incident_id, clock_timestamp() + interval '10 minutes')
    on conflict do nothing;
  end if;
  return null;
end
$$;
create trigger item_is_looked_for after insert on item for each row execute function item_is_looked_for();

-- What is held already is looked for, too. The owner is bound by the policies, so they are lifted for this statement.
alter table item no force row level security;
alter table outbox no force row level security;
insert into outbox (network_id, id, incident_id, kind, subject_id)
select distinct on (network_id, incident_id) network_id, uuidv7(), incident_id, 'sight.look', incident_id from item where stage not in ('released', 'handed-back', 'merged') order by network_id, incident_id;
alter table outbox force row level security;
alter table item force row level security;
