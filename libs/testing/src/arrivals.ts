import type { TagKind } from '#custody';
import type { IncidentOnTest } from './incident.js';
import type { TestClient, TestNetwork, TestServer } from './server.js';

export interface HouseholdOnTest {
  id: string;
  code: string;
}

let counter = 0;

/** A household with consent to treat and freeze, through the API. */
export async function takeInTestHousehold(client: TestClient, incident: IncidentOnTest, consents: object[] = [{ scope: 'treat', given: true, manner: 'spoken' }, { scope: 'freeze', given: true, manner: 'spoken' }]): Promise<HouseholdOnTest> {
  counter += 1;
  const code = `HH-${process.pid}-${counter}`;
  const answer = await client.post(`/v1/incidents/${incident.id}/households`, { code, contact: { name: `Contact of ${code}`, phone: '000' }, consents });
  if (answer.status !== 201) throw new Error(`the test household was refused: ${JSON.stringify(answer.body)}`);
  return { id: answer.body.id as string, code };
}

/** Fresh item tags, reserved through the API. */
export async function reserveTestTags(client: TestClient, incident: IncidentOnTest, count: number, kind: TagKind = 'item'): Promise<string[]> {
  const answer = await client.post(`/v1/incidents/${incident.id}/tag-blocks`, { kind, count, reservedFor: 'tests' });
  if (answer.status !== 201) throw new Error(`tags were refused: ${JSON.stringify(answer.body)}`);
  return answer.body.tags as string[];
}

/** One item through the API: a dye-fast cotton quilt unless told otherwise. Answers the body of the item. */
export async function takeInTestItem(client: TestClient, incident: IncidentOnTest, household: HouseholdOnTest, change: object = {}): Promise<{ id: string; tag: string; version: number; keeper: { kind: string; id: string }; stage: string } & Record<string, unknown>> {
  const [tag] = await reserveTestTags(client, incident, 1);
  const answer = await client.post(`/v1/incidents/${incident.id}/items`, {
    householdId: household.id, siteId: incident.site(), tag, description: 'Wedding quilt, red and white', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', significance: 'irreplaceable', photographRef: 'photo-1', ...change,
  });
  if (answer.status !== 201) throw new Error(`the test item was refused: ${JSON.stringify(answer.body)}`);
  return answer.body;
}

/**
 * Many garments of one household at once, by the use case itself in one transaction, which takes a fraction of the time of as
 * many requests. Answers their ids in the order of intake.
 */
export async function takeInManyTestItems(server: TestServer, network: TestNetwork, incident: IncidentOnTest, household: HouseholdOnTest, count: number): Promise<string[]> {
  const [{ takeInItem }, { newId }] = await Promise.all([import('#application'), import('#platform')]);
  const tags = await reserveTestTags(network, incident, count);
  const context = { networkId: network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' };
  const call = { context, env: { nowMs: server.clock.nowMs(), newId: () => newId() } };
  const garment = {
    incidentId: incident.id, householdId: household.id, siteId: incident.site(), count: 1, lot: false, description: 'Shirt', familyWords: '', photographRef: '',
    materialClass: 'textile-garment-3d', sizeClass: 'garment', significance: 'valued', arrivedAtMs: null, wettedAtMs: null, water: null, to: null,
  } as const;
  return server.unitOfWork.write(context, async (stores) => {
    const ids: string[] = [];
    for (const tag of tags) ids.push((await takeInItem(stores, call, { ...garment, tag })).id);
    return ids;
  });
}
