import type { Pool } from './pool.js';

/** What a login can do, by itself or as a role that it is a member of. */
export interface LoginReach {
  name: string;
  /** Roles it can act as, itself among them. A membership is as good as the role itself: SET ROLE needs no password. */
  roles: { name: string; unbound: boolean }[];
  /** Tables that one of these roles owns: whoever owns a table can turn its policies off. */
  owned: { table: string; role: string }[];
  /** Tables of which one of these roles sees every network's rows, by a policy made for that role. */
  wide: { table: string; role: string }[];
}

const ROLES = `
  select oid, rolname as name, rolsuper or rolbypassrls as unbound from pg_roles
  where pg_has_role(current_user, oid, 'member') or pg_has_role(session_user, oid, 'member')`;

const TABLES = `n.nspname = 'public' and c.relkind in ('r', 'p') and c.relname <> '_prisma_migrations'`;

/** Asks the catalogue what the login of a pool can reach. */
export async function reachOf(pool: Pool): Promise<LoginReach> {
  const { rows } = await pool.query<LoginReach>(`
    with mine as (${ROLES})
    select current_user::text as name,
           (select json_agg(json_build_object('name', m.name, 'unbound', m.unbound) order by m.name) from mine m) as roles,
           (select coalesce(json_agg(json_build_object('table', c.relname, 'role', m.name) order by c.relname), '[]')
            from pg_class c join pg_namespace n on n.oid = c.relnamespace join mine m on m.oid = c.relowner where ${TABLES}) as owned,
           (select coalesce(json_agg(json_build_object('table', c.relname, 'role', m.name) order by c.relname), '[]')
            from pg_policy p join pg_class c on c.oid = p.polrelid join pg_namespace n on n.oid = c.relnamespace join mine m on m.oid = any(p.polroles)
            where ${TABLES} and p.polpermissive) as wide`);
  const reach = rows[0];
  if (!reach) throw new Error('the catalogue answered nothing');
  return reach;
}
