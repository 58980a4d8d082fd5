-- Rows of the outbox that are done are of no use after a while, and the relay removes them. That it can remove nothing
-- else is the database's word: a restrictive policy holds beside every other.
grant delete on outbox to wl_relay;
create policy relay_removes_done on outbox as restrictive for delete to wl_relay using (done_at is not null);

-- The oldest done rows, and the dead ones, without reading the others.
create index outbox_done on outbox (done_at) where done_at is not null;
create index outbox_dead on outbox (network_id, id) where dead_at is not null;
