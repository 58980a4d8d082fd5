import { takeInTestHousehold, takeInTestItem, type IncidentOnTest, type TestNetwork } from '#testing';
import { SOUND_COTTON } from './workbench.js';

/** What a wish says beside its kind; the person is the lead of the small incident. */
export function wishOf(incident: IncidentOnTest, itemId: string, kind: string, change: object = {}) {
  return { itemId, kind, reason: 'The owner asked for it.', personId: incident.person('P1'), ...change };
}

/** Wet cotton quilts of one household, assessed and colour-tested: the rinse comes next for each. */
export async function testedQuilts(network: TestNetwork, incident: IncidentOnTest, count: number, change: object = {}): Promise<string[]> {
  const household = await takeInTestHousehold(network, incident);
  const ids: string[] = [];
  for (let i = 0; i < count; i += 1) {
    const { id } = await takeInTestItem(network, incident, household, change);
    await network.post(`/v1/items/${id}/assessments`, { personId: incident.person('P1'), ...SOUND_COTTON }).expect(201);
    await network.post(`/v1/items/${id}/colour-tests`, { personId: incident.person('P2'), tests: [{ colour: 'red border', solution: 'water', method: 'swab', reading: 'no-transfer' }], allColoursTested: true }).expect(201);
    ids.push(id);
  }
  return ids;
}

/** Changes how new plans of the incident come into force. */
export async function publish(network: TestNetwork, incident: IncidentOnTest, planPublishing: 'automatic' | 'by-hand'): Promise<void> {
  const path = `/v1/incidents/${incident.id}`;
  const etag = (await network.get(path).expect(200)).headers['etag'] as string;
  await network.patch(path, { planPublishing }, { 'if-match': etag }).expect(200);
}

/** The newest plan, published or not. */
export async function newestPlan(network: TestNetwork, incident: IncidentOnTest): Promise<{ id: string; number: number; state: string }> {
  return (await network.get(`/v1/incidents/${incident.id}/plan-revisions?limit=1`).expect(200)).body.items[0];
}
