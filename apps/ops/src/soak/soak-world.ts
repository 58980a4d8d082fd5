import type { Keeper, Stage } from '#custody';
import type { RegisterIncidentInput } from '#contracts';
import { BenchClient, mayHoldAnything } from '../bench/world.js';
import { createNetwork } from '../networks.js';
import type { SoakNetwork } from './tablets.js';

function incident(): RegisterIncidentInput {
  const freezer = (code: string) => ({ code, name: `Freezer ${code}`, volumeL: 5_000, availableFrom: '2026-05-08T18:00:00Z' });
  return {
    name: 'Fault run', floodAt: '2026-05-08T18:00:00Z',
    sites: [{ code: 'HALL', name: 'Hall of the fault run', zones: ['dirty', 'clean', 'quarantine', 'cold'], freezers: [freezer('F1'), freezer('F2')] }],
  };
}

interface LayoutBody {
  sites: { id: string; holdingAreas: { id: string; zone: string }[]; freezers: { id: string }[] }[];
}

/** A network with one incident and `count` things in its first waiting area, through the API. */
export async function soakNetwork(ownerUrl: string, url: string, name: string, count: number): Promise<SoakNetwork> {
  const { networkId, key } = await createNetwork(ownerUrl, name);
  const client = new BenchClient(url, key);
  const { id } = await client.call<{ id: string }>('POST', '/v1/incidents', incident());
  const { sites } = await client.call<LayoutBody>('GET', `/v1/incidents/${id}/layout`);
  const site = sites[0];
  if (site === undefined) throw new Error('the incident has no site');
  const holding = site.holdingAreas.filter(mayHoldAnything).map((area): Keeper => ({ kind: 'holding', id: area.id }));
  const household = await client.call<{ id: string }>('POST', `/v1/incidents/${id}/households`, { code: 'HH-1', contact: { name: 'Household of the fault run' } });
  const { tags } = await client.call<{ tags: string[] }>('POST', `/v1/incidents/${id}/tag-blocks`, { kind: 'item', count, reservedFor: 'fault run' });
  const items: SoakNetwork['items'] = [];
  for (const tag of tags) {
    const item = await client.call<{ id: string; keeper: Keeper; stage: Stage }>('POST', `/v1/incidents/${id}/items`, { householdId: household.id, siteId: site.id, tag, description: 'letter', sizeClass: 'a4-sheet', materialClass: 'paper-uncoated', to: holding[0] });
    const chain = await client.call<{ items: unknown[] }>('GET', `/v1/items/${item.id}/custody-events`);
    items.push({ id: item.id, keeper: item.keeper, stage: item.stage, seq: chain.items.length });
  }
  return { networkId, key, items, holding, freezers: site.freezers.map((freezer): Keeper => ({ kind: 'freezer', id: freezer.id })) };
}
