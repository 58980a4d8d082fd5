-- What stood in the clear before `personal_data` is sealed by the worker: one row of the outbox for each incident, done in small steps, so
-- that it may be stopped anywhere and goes on where it was.
do $$
declare
  kinds text;
begin
  select pg_get_expr(conbin, conrelid) into strict kinds from pg_constraint where conrelid = 'outbox'::regclass and conname = 'outbox_kind_check';
  alter table outbox drop constraint outbox_kind_check;
  execute format('alter table outbox add constraint outbox_kind_check check (%s or kind in (''personal.seal''))', kinds);
end
$$;

-- The owner is bound by the policies, so they are lifted for this statement.
alter table household no force row level security;
alter table outbox no force row level security;
insert into outbox (network_id, id, incident_id, kind, subject_id)
select distinct on (network_id, incident_id) network_id, uuidv7(), incident_id, 'personal.seal', incident_id from household order by network_id, incident_id;
alter table outbox force row level security;
alter table household force row level security;

-- What was seen is never edited; but the words beside it go with the household that they may name.
create function only_words_are_erased() returns trigger language plpgsql as $$
begin
  if tg_op = 'UPDATE' and to_jsonb(new) - tg_argv[0] = to_jsonb(old) - tg_argv[0] and (to_jsonb(new) ->> tg_argv[0] = '(erased)' or new is not distinct from old) then return new; end if;
  raise exception '% is append-only', tg_table_name using errcode = 'restrict_violation';
end
$$;
drop trigger sighting_append_only on sighting;
create trigger sighting_append_only before update or delete on sighting for each row execute function only_words_are_erased('note');
drop trigger unsuited_step_append_only on unsuited_step;
create trigger unsuited_step_append_only before update or delete on unsuited_step for each row execute function only_words_are_erased('reason');
grant update (note) on sighting to wl_app;
grant update (reason) on unsuited_step to wl_app;
grant update on stock_take_resolution to wl_app;

-- As before, and one way more.
create or replace function keep_plan_wish() returns trigger language plpgsql as $$
begin
  -- An erasure takes the words and leaves everything else.
  if to_jsonb(new) - array['reason', 'withdrawn_reason'] = to_jsonb(old) - array['reason', 'withdrawn_reason']
     and new.reason = '(erased)' and coalesce(new.withdrawn_reason, '(erased)') = '(erased)' then return new; end if;
  if old.withdrawn_at is not null or old.lapsed_at is not null
     or (new.incident_id, new.id, new.item_id, new.kind, new.reason, new.wished_by, new.wished_at) is distinct from (old.incident_id, old.id, old.item_id, old.kind, old.reason, old.wished_by, old.wished_at)
     or (new.asked_at_station_id, new.station_id, new.step, new.disposition, new.not_before, new.pinned) is distinct from (old.asked_at_station_id, old.station_id, old.step, old.disposition, old.not_before, old.pinned) then
    raise exception 'only the end of a wish is written later' using errcode = 'restrict_violation';
  end if;
  return new;
end
$$;
