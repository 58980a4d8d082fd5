import pg from 'pg';

/** Everything that the migrations made, as sorted lines that a reviewer can read in a diff. */
export async function readCatalogue(adminUrl: string): Promise<string> {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  try {
    const sections: string[] = [];
    for (const [title, sql] of Object.entries(SECTIONS)) {
      const { rows } = await client.query<{ line: string }>(sql);
      sections.push(`# ${title}`, ...rows.map((row) => row.line.replaceAll(/\s+/g, ' ')), '');
    }
    return sections.join('\n');
  } finally {
    await client.end();
  }
}

const OURS = `n.nspname = 'public' and c.relname <> '_prisma_migrations'`;

const SECTIONS: Record<string, string> = {
  tables: `select c.relname || ' owner=' || pg_get_userbyid(c.relowner) || ' rls=' || c.relrowsecurity || ' forced=' || c.relforcerowsecurity as line
    from pg_class c join pg_namespace n on n.oid = c.relnamespace where ${OURS} and c.relkind in ('r', 'p') order by 1`,
  columns: `select c.relname || '.' || a.attname || ' ' || format_type(a.atttypid, a.atttypmod) || case when a.attnotnull then ' not null' else '' end
      || coalesce(' default ' || pg_get_expr(d.adbin, d.adrelid), '') || coalesce(' collate ' || nullif(co.collname, 'default'), '') as line
    from pg_attribute a join pg_class c on c.oid = a.attrelid join pg_namespace n on n.oid = c.relnamespace
    left join pg_attrdef d on d.adrelid = a.attrelid and d.adnum = a.attnum left join pg_collation co on co.oid = a.attcollation
    where ${OURS} and c.relkind in ('r', 'p') and a.attnum > 0 and not a.attisdropped order by c.relname, a.attnum`,
  constraints: `select c.relname || ' ' || k.conname || ' ' || pg_get_constraintdef(k.oid) as line
    from pg_constraint k join pg_class c on c.oid = k.conrelid join pg_namespace n on n.oid = c.relnamespace where ${OURS} and k.contype <> 'n' order by 1`,
  indexes: `select indexdef as line from pg_indexes where schemaname = 'public' and tablename <> '_prisma_migrations' order by 1`,
  policies: `select tablename || ' ' || policyname || ' ' || permissive || ' ' || cmd || ' to ' || array_to_string(roles, ',') || ' using ' || coalesce(qual, '') || ' check ' || coalesce(with_check, '') as line
    from pg_policies where schemaname = 'public' order by 1`,
  grants: `select table_name || ' ' || grantee || ' ' || string_agg(privilege_type, ',' order by privilege_type) as line
    from information_schema.role_table_grants where table_schema = 'public' and table_name <> '_prisma_migrations' and grantee like 'wl\\_%' group by table_name, grantee order by 1`,
  triggers: `select c.relname || ' ' || pg_get_triggerdef(t.oid) as line
    from pg_trigger t join pg_class c on c.oid = t.tgrelid join pg_namespace n on n.oid = c.relnamespace where ${OURS} and not t.tgisinternal order by 1`,
  functions: `select p.proname || '(' || pg_get_function_identity_arguments(p.oid) || ') owner=' || pg_get_userbyid(p.proowner) || ' definer=' || p.prosecdef || ' body=' || md5(p.prosrc) as line
    from pg_proc p join pg_namespace n on n.oid = p.pronamespace where n.nspname = 'public' order by 1`,
};
