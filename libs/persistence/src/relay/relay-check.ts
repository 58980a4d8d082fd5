import type { Pool } from '../pool.js';

/** Why the relay must not run on this login; empty when it may. A login without the relay's policy would see no row and ring for nothing. */
export async function relayFaults(pool: Pool): Promise<string[]> {
  const { rows } = await pool.query<{ name: string; unbound: boolean; relay: boolean }>(
    `select rolname as name, rolsuper or rolbypassrls as unbound,
            exists (select from pg_roles r where r.rolname = 'wl_relay') and pg_has_role(current_user, 'wl_relay', 'usage') as relay
     from pg_roles where rolname = current_user`,
  );
  const login = rows[0];
  if (!login) return ['The login of the relay is unknown to the database.'];
  if (login.unbound) return [`The relay's login ${login.name} can bypass row-level security. Use the role wl_relay in DATABASE_RELAY_URL.`];
  if (!login.relay) return [`The relay's login ${login.name} is not the role wl_relay. Set DATABASE_RELAY_URL to that login.`];
  return [];
}
