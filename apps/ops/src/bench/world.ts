import pg from 'pg';
import { incidentForBench } from './incident.js';

/** A client that sends commands as fast as it is answered; keep-alive by fetch. */
export class BenchClient {
  constructor(
    readonly url: string,
    private readonly key: string,
  ) {}

  async call<T>(method: string, path: string, body?: unknown, contentType = 'application/json'): Promise<T> {
    const isText = typeof body === 'string';
    const answer = await fetch(`${this.url}${path}`, {
      method,
      headers: { authorization: `Bearer ${this.key}`, ...(method === 'GET' ? {} : { 'idempotency-key': crypto.randomUUID(), 'content-type': contentType }) },
      ...(body === undefined ? {} : { body: isText ? body : JSON.stringify(body) }),
    });
    const text = await answer.text();
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${text.slice(0, 300)}`);
    return JSON.parse(text) as T;
  }
}

/** Nothing is known of the things of a bench, so none of them goes into the clean zone. */
export const mayHoldAnything = ({ zone }: { zone: string }): boolean => zone !== 'clean';

export interface BenchWorld {
  incidentId: string;
  siteId: string;
  householdId: string;
  holding: { kind: 'holding'; id: string }[];
}

interface LayoutBody {
  sites: { id: string; holdingAreas: { id: string; zone: string }[] }[];
}

/** An incident with one household, through the API. */
export async function benchWorld(client: BenchClient): Promise<BenchWorld> {
  const incident = await client.call<{ id: string }>('POST', '/v1/incidents', incidentForBench());
  const layout = await client.call<LayoutBody>('GET', `/v1/incidents/${incident.id}/layout`);
  const household = await client.call<{ id: string }>('POST', `/v1/incidents/${incident.id}/households`, { code: 'HH-1', contact: { name: 'Bench household' } });
  const site = layout.sites[0];
  if (!site) throw new Error('the incident has no site');
  return { incidentId: incident.id, siteId: site.id, householdId: household.id, holding: site.holdingAreas.filter(mayHoldAnything).map((area) => ({ kind: 'holding', id: area.id })) };
}

export async function reserve(client: BenchClient, world: BenchWorld, count: number): Promise<string[]> {
  const tags: string[] = [];
  while (tags.length < count) {
    const block = await client.call<{ tags: string[] }>('POST', `/v1/incidents/${world.incidentId}/tag-blocks`, { kind: 'item', count: Math.min(5_000, count - tags.length), reservedFor: 'bench' });
    tags.push(...block.tags);
  }
  return tags;
}

/** Rows that look like items, put in by the owner in bulk: only listing is measured on them. */
export async function fillItems(ownerUrl: string, networkId: string, world: BenchWorld, count: number): Promise<void> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    await client.query(
      `insert into item (network_id, incident_id, id, household_id, site_id, tag_code, kind, count, description, material_class, size_class, area_dm2, volume_l, dry_mass_g,
         significance, arrived_at, seq, head_hash, keeper_kind, keeper_id, stage, urgency, start_by, disposition, created_at, updated_at)
       select $1, $2, uuidv7(), $3, $4, 'B' || n, 'item', 1, 'bench item ' || n, 'paper-uncoated', 'a4-sheet', 8, 1, 5, 'valued', now(), 1, repeat('0', 64), 'holding', $5,
         (array['waiting', 'in-work', 'drying', 'held-frozen'])[1 + n % 4], 'within-two-days', now() + make_interval(mins => n % 2880), 'treat', now(), now()
       from generate_series(1, $6::int) as n`,
      [networkId, world.incidentId, world.householdId, world.siteId, world.holding[0]?.id, count],
    );
    await client.query('vacuum analyze item');
  } finally {
    await client.end();
  }
}
