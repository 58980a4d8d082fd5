import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('is lifted once, by a lead; of two at the same moment one lifts it', async () => {
  const { id } = await bench.household();
  const lead = { personId: bench.incident.person('P1') };
  const hold = (await bench.network.post(`/v1/households/${id}/legal-holds`, { ...lead, reason: 'A claim is announced' }).expect(201)).body.id as string;
  const lift = (body: object = lead) => bench.network.post(`/v1/legal-holds/${hold}/endings`, body);
  expect((await lift({ personId: bench.incident.person('P3') }).expect(422)).body.code).toBe('command_refused');
  const both = await Promise.all([lift(), lift()]);
  expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
  expect(both.find(({ status }) => status === 201)?.body).toMatchObject({ reason: 'A claim is announced', liftedBy: lead.personId });
  await bench.network.post(`/v1/households/${id}/erasures`, { ...lead, reason: 'owner-asked' }).expect(201);
});
