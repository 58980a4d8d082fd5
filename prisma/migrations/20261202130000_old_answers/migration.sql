-- Answers are kept so that a command that comes twice is not done twice. After a while nobody sends it again, and they only hold what
-- people wrote. The relay removes them as it removes done rows of the outbox: it sees which commands they were and how old they are,
-- never what was answered, and only of those that are a day old or more, whatever it is told.
grant select (network_id, principal_id, operation, idempotency_key, created_at), delete on idempotency_record to wl_relay;
create policy relay_sees_old on idempotency_record for select to wl_relay using (created_at < statement_timestamp() - interval '1 day');
create policy relay_removes_old on idempotency_record for delete to wl_relay using (created_at < statement_timestamp() - interval '1 day');

-- They come in the order of their age, so that a few pages tell which are old, of all networks; each command pays next to nothing for it.
create index idempotency_record_old on idempotency_record using brin (created_at);
