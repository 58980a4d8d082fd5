import { reachOf } from '../login-check.js';
import type { Pool } from '../pool.js';

/** Of this table the relay sees which rows are a day old, and none of what they hold. */
const FORGOTTEN = 'idempotency_record';

/**
 * Why the relay must not run on this login; empty when it may. A login without the relay's policy would see no row and
 * ring for nothing; one that can act as a stronger role would see more than the outbox.
 */
export async function relayFaults(pool: Pool): Promise<string[]> {
  const { rows } = await pool.query<{ relay: boolean }>(
    `select exists (select from pg_roles r where r.rolname = 'wl_relay') and pg_has_role(current_user, 'wl_relay', 'usage') as relay`,
  );
  const { name, roles, owned, wide } = await reachOf(pool);
  const use = 'Use the role wl_relay in DATABASE_RELAY_URL.';
  if (roles.some((role) => role.name === name && role.unbound)) return [`The relay's login ${name} can bypass row-level security. ${use}`];
  if (!rows[0]?.relay) return [`The relay's login ${name} is not the role wl_relay. Set DATABASE_RELAY_URL to that login.`];
  const as = (role: string) => (role === name ? `The relay's login ${name}` : `The relay's login ${name} can act as ${role}, which`);
  return [
    ...roles.filter((role) => role.unbound).map((role) => `${as(role.name)} can bypass row-level security. ${use}`),
    ...owned.map(({ table, role }) => `${as(role)} owns table ${table}. ${use}`),
    ...wide.filter(({ table, role }) => table !== 'outbox' && !(table === FORGOTTEN && role === 'wl_relay')).map(({ table, role }) => `${as(role)} sees the rows of every network in table ${table}. ${use}`),
  ];
}
