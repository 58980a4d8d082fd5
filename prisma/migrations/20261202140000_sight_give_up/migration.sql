-- A look whose tries are used up writes the next one while it is not dead yet: only one that lies ahead keeps another away. As for the other looks.
drop index outbox_sight_look;
create unique index outbox_sight_look on outbox (network_id, subject_id) where kind = 'sight.look' and done_at is null and dead_at is null and tries = 0;
