-- Retention on a schedule, where a network has chosen one: a look of each incident lies in the outbox ahead of its time, and writes the next one.

-- Null: the schedule of the network started it, by the decision about the schedule.
alter table retention_run alter column person_id drop not null;

-- The kinds that stand so far and this one.
do $$
declare
  kinds text;
begin
  select pg_get_expr(conbin, conrelid) into strict kinds from pg_constraint where conrelid = 'outbox'::regclass and conname = 'outbox_kind_check';
  alter table outbox drop constraint outbox_kind_check;
  execute format('alter table outbox add constraint outbox_kind_check check (%s or kind in (''retention.look''))', kinds);
end
$$;
-- One lies ahead; one that is being worked, or whose tries are used up, writes the next beside itself.
create unique index outbox_retention_look on outbox (network_id, subject_id) where kind = 'retention.look' and done_at is null and dead_at is null and tries = 0;

-- A new incident joins a schedule that stands; its first look only finds out when the next one is due. Those that are there are reached by the decision.
create function incident_has_retention_looks() returns trigger language plpgsql as $$
begin
  if (select value from calibration_value where network_id = new.network_id and library = 'retention' and key = 'scheduleEveryDays' order by number desc limit 1) > 0 then
    insert into outbox (network_id, id, incident_id, kind, subject_id) values (new.network_id, uuidv7(), new.id, 'retention.look', new.id) on conflict do nothing;
  end if;
  return null;
end
$$;
create trigger incident_has_retention_looks after insert on incident for each row execute function incident_has_retention_looks();
