import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, takeInTestHousehold, takeInTestItem, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { assignmentsOf, planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { SOUND_COTTON } from '../support/workbench.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
const whites: string[] = [];
let red: string;

/** Two white shirts that may share a bath, and a coloured one that may not lie with them; one bath and two people who rinse. */
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident((document) => {
    withBenches(document);
    document.sites[0]!.stations!.find(({ code }) => code === 'RINSE')!.capacity = 1;
  });
  const household = await takeInTestHousehold(network, incident);
  const shirt = async (colour: string) => {
    const { id } = await takeInTestItem(network, incident, household, { materialClass: 'textile-garment-3d', sizeClass: 'garment' });
    await network.post(`/v1/items/${id}/assessments`, { personId: incident.person('P1'), ...SOUND_COTTON }).expect(201);
    await network.post(`/v1/items/${id}/colour-tests`, { personId: incident.person('P2'), tests: [{ colour, solution: 'water', method: 'swab', reading: 'no-transfer' }], allColoursTested: true }).expect(201);
    return id;
  };
  for (let i = 0; i < 2; i += 1) whites.push(await shirt('white'));
  red = await shirt('red');
  await planNow(server, network, incident);
});
afterAll(() => server.close());

test('what goes into one bath together stands so on the list, and nothing of another group with it', async () => {
  const { next } = (await network.get(`/v1/stations/${incident.station('RINSE')}/work-list`).expect(200)).body as { next: { itemId: string; batchId: string | null; together: number; plannedStart: string; crew: unknown[]; bathGroup: string }[] };
  const of = (id: string) => next.find(({ itemId }) => itemId === id)!;
  const [one, two] = whites.map(of);
  expect(one).toMatchObject({ batchId: expect.any(String), together: 2 });
  expect(two).toMatchObject({ batchId: one!.batchId, together: 2, plannedStart: one!.plannedStart, crew: one!.crew, bathGroup: one!.bathGroup });
  expect(of(red).bathGroup).not.toBe(one!.bathGroup);
  expect(of(red).batchId === null || of(red).batchId !== one!.batchId).toBe(true);
  expect(of(red).together).toBe(1);
});

test('the assignments say the same', async () => {
  const rinses = (await assignmentsOf(network, incident)).filter(({ step }) => step === 'rinse');
  expect(rinses.filter(({ together }) => together === 2).map(({ itemId }) => itemId).sort()).toEqual([...whites].sort());
  expect(rinses.every(({ option }) => option !== null)).toBe(true);
});
