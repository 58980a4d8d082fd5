import type pg from 'pg';

/** Tables that hold data of networks, from the catalogue. */
export async function tenantTables(admin: Pick<pg.Pool, 'query'>): Promise<string[]> {
  const { rows } = await admin.query<{ name: string }>(
    `select c.relname as name from pg_class c join pg_namespace n on n.oid = c.relnamespace
     where n.nspname = 'public' and c.relkind in ('r', 'p') and c.relname <> '_prisma_migrations' order by 1`,
  );
  return rows.map((row) => row.name);
}

/** Number of rows and a hash over their whole content, per table: equal digests mean that nothing was written. */
export async function networkDigest(admin: Pick<pg.Pool, 'query'>, networkId: string, except: readonly string[] = []): Promise<Record<string, string>> {
  const tables = (await tenantTables(admin)).filter((table) => !except.includes(table));
  const each = tables.map((table) => `select '${table}' as name, count(*) || ':' || coalesce(sum(hashtextextended(t::text, 0)::numeric), 0) as digest from ${table} t where network_id = $1`);
  const { rows } = await admin.query<{ name: string; digest: string }>(each.join(' union all '), [networkId]);
  return Object.fromEntries(rows.map((row) => [row.name, row.digest]));
}

/** Every row that is written from now on in a test database, noted by triggers: far cheaper than digests where there are thousands of questions. */
export interface WriteWatch {
  mark(): Promise<string>;
  /** Tables in which rows of the network were inserted, changed or deleted since the mark, by whomever; sorted. */
  tablesSince(mark: string, networkId: string, except?: readonly string[]): Promise<string[]>;
}

/** A write that is rolled back takes its note with it, as the note is a row of the same transaction. */
export async function watchWrites(admin: Pick<pg.Pool, 'query'>): Promise<WriteWatch> {
  await admin.query(`create schema watch;
    create table watch.write (n bigint generated always as identity primary key, table_name text not null, network_id uuid);
    create function watch.note() returns trigger language plpgsql security definer set search_path = '' as $$
    begin
      insert into watch.write (table_name, network_id) values (tg_argv[0], coalesce(new.network_id, old.network_id));
      return null;
    end $$`);
  const { rows: partitions } = await admin.query<{ name: string }>(`select relname as name from pg_class where relispartition`);
  const inherited = new Set(partitions.map(({ name }) => name));
  const tables = (await tenantTables(admin)).filter((table) => !inherited.has(table));
  await admin.query(tables.map((table) => `create trigger watch_writes after insert or update or delete on ${table} for each row execute function watch.note('${table}')`).join(';'));
  return {
    async mark() {
      return (await admin.query<{ n: string }>('select coalesce(max(n), 0)::text as n from watch.write')).rows[0]?.n ?? '0';
    },
    async tablesSince(mark, networkId, except = []) {
      const { rows } = await admin.query<{ name: string }>('select distinct table_name as name from watch.write where n > $1 and network_id = $2 and table_name <> all ($3) order by 1', [mark, networkId, except]);
      return rows.map(({ name }) => name);
    },
  };
}

/** What binds a row to one incident where the column is not called incident_id. */
const OWNER_COLUMN: Record<string, string> = { incident: 'id', api_key: 'limited_to_incident_id' };

/** They name keys and things of every incident without saying of which: they show neither that an id is one incident's nor that it is not. */
const OF_ANY_INCIDENT = new Set(['audit_entry', 'idempotency_record']);

/** Every id in the rows of a network, or of one incident of it, minus those that also stand in rows of others. */
export async function idsOf(admin: Pick<pg.Pool, 'query'>, networkId: string, incidentId: string | null = null): Promise<Set<string>> {
  const { rows: columns } = await admin.query<{ table: string; column: string; incident: boolean }>(
    `select a.attrelid::regclass::text as table, a.attname as column,
            exists (select from pg_attribute i where i.attrelid = a.attrelid and i.attname = 'incident_id') as incident
     from pg_attribute a join pg_class c on c.oid = a.attrelid join pg_namespace n on n.oid = c.relnamespace
     where n.nspname = 'public' and c.relkind in ('r', 'p') and a.attnum > 0 and not a.attisdropped and a.atttypid = 'uuid'::regtype`,
  );
  const telling = columns.filter(({ table }) => incidentId === null || !OF_ANY_INCIDENT.has(table));
  const each = telling.map(({ table, column, incident }) => {
    const owner = incident ? 'incident_id' : OWNER_COLUMN[table];
    const own = incidentId === null ? 'network_id = $1' : owner === undefined ? 'false' : `network_id = $1 and ${owner} = $2`;
    return `select ${column} as id, coalesce(${own}, false) as own from ${table} where ${column} is not null`;
  });
  const { rows } = await admin.query<{ id: string; own: boolean }>(
    `select id, own from (${each.join(' union all ')}) as every where $1::uuid is not null and ($2::uuid is null or true) group by id, own`,
    [networkId, incidentId],
  );
  const inside = new Set(rows.filter((row) => row.own).map((row) => row.id));
  const outside = new Set(rows.filter((row) => !row.own).map((row) => row.id));
  return new Set([...inside].filter((id) => !outside.has(id)));
}
