-- Roles of the cluster, made once by `wrackline migrate` before the first migration. Idempotent.
--   wl_owner  owns every table; nobody logs in as it
--   wl_app    the API and the workers on tenant data: owns nothing, cannot bypass row-level security
--   wl_relay  the outbox relay: sees the outbox of every network and nothing else
--   wl_queue  owns the database of the job queue (when there is no Redis), and sees no other
--   wl_auth   owner of the one function that looks a key up before the network is known
-- Passwords are set by the caller; on a managed server the operator makes the logins.
do $$
begin
  if not exists (select from pg_roles where rolname = 'wl_owner') then
    create role wl_owner nologin nosuperuser nobypassrls;
  end if;
  if not exists (select from pg_roles where rolname = 'wl_auth') then
    create role wl_auth nologin nosuperuser nobypassrls;
  end if;
  if not exists (select from pg_roles where rolname = 'wl_app') then
    create role wl_app login nosuperuser nobypassrls nocreatedb nocreaterole noinherit;
  end if;
  if not exists (select from pg_roles where rolname = 'wl_relay') then
    create role wl_relay login nosuperuser nobypassrls nocreatedb nocreaterole noinherit;
  end if;
  if not exists (select from pg_roles where rolname = 'wl_queue') then
    create role wl_queue login nosuperuser nobypassrls nocreatedb nocreaterole noinherit;
  end if;
end
$$;
