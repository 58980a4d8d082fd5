import { newId } from '#platform';
import { type IncidentOnTest, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';

export interface Verdict {
  scanId: string;
  verdict: string;
  itemId: string | null;
  containerId: string | null;
  place: { kind: string; id: string } | null;
  event: { kind: string; seq: number } | null;
  problem: ({ code: string; detail: string } & Record<string, unknown>) | null;
}

/** An incident with two shelves and a van, and a scanner. */
export async function scanWorld(server: TestServer) {
  const network = await server.network();
  const incident = await network.incident();
  const household = await takeInTestHousehold(network, incident);
  const shelf = async (code: string, volumeL: number | null = null, zone = 'clean') => ({ kind: 'shelf', id: (await network.post(`/v1/incidents/${incident.id}/shelves`, { siteId: incident.site(), code, name: `Shelf ${code}`, zone, volumeL }).expect(201)).body.id as string });
  const [a, b] = [await shelf('A'), await shelf('B')];
  const van = { kind: 'vehicle', id: (await network.post(`/v1/incidents/${incident.id}/vehicles`, { code: 'VAN', name: 'White van', volumeL: 6000 }).expect(201)).body.id as string };
  return {
    network, incident, household, a, b, van, shelf,
    item: (change: object = {}) => takeInTestItem(network, incident, household, change),
    scan: (itemTag: string, place: object, change: object = {}) => ({ scanId: newId(), itemTag, place, seenAt: new Date(server.clock.nowMs()).toISOString(), ...change }),
    send: (...scans: object[]) => sendScans(network, incident, scans),
    now: async (id: string) => (await network.get(`/v1/items/${id}`).expect(200)).body,
    chain: async (id: string) => (await network.get(`/v1/items/${id}/custody-events`).expect(200)).body.items as { kind: string; seq: number; refs: Record<string, string> }[],
    sightings: async (id: string) => (await server.admin.query<{ verdict: string; place_id: string; at_seq: number }>('select verdict, place_id, at_seq from sighting where item_id = $1 order by recorded_at, id', [id])).rows,
  };
}

export async function sendScans(network: Pick<TestNetwork, 'post'>, incident: IncidentOnTest, scans: readonly object[]): Promise<Verdict[]> {
  return (await network.post(`/v1/incidents/${incident.id}/scans`, { scans }).expect(200)).body.results;
}
