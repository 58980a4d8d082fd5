import { reachOf } from './login-check.js';
import type { Pool } from './pool.js';

/** Why the process must not start on this login; empty when it may. */
export async function tenancyFaults(pool: Pool): Promise<string[]> {
  const faults: string[] = [];
  const { roles, wide } = await reachOf(pool);
  for (const role of roles) {
    if (role.unbound) faults.push(`The login ${role.name} can bypass row-level security. Use the role wl_app.`);
  }
  for (const { table, role } of wide) faults.push(`The login can act as ${role}, which sees the rows of every network in table ${table}.`);
  const tables = await pool.query<{ name: string; owner: string; secured: boolean; forced: boolean; policies: number; keyed: boolean }>(`
    select c.relname as name, pg_get_userbyid(c.relowner) as owner, c.relrowsecurity as secured, c.relforcerowsecurity as forced,
           (select count(*)::int from pg_policy p where p.polrelid = c.oid) as policies,
           exists (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'network_id' and a.attnotnull) as keyed
    from pg_class c join pg_namespace n on n.oid = c.relnamespace
    where n.nspname = 'public' and c.relkind in ('r', 'p') and c.relname <> '_prisma_migrations'`);
  if (tables.rows.length === 0) faults.push('The database has no tables. Run the migrations first.');
  for (const table of tables.rows) {
    if (!table.secured || !table.forced || table.policies === 0 || !table.keyed) faults.push(`Table ${table.name} has no forced policy by network.`);
    if (roles.some((role) => role.name === table.owner)) faults.push(`The login owns table ${table.name}.`);
  }
  return faults;
}
