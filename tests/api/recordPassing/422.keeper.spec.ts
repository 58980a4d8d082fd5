import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a courier is a person of the incident: an id that names nobody is refused, and one of the crew has the item from then on', async () => {
  const item = await bench.takeIn(await bench.household());
  const give = (id: string) => bench.network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: item.keeper, to: { kind: 'courier', id } });
  const elsewhere = await bench.network.incident();
  const before = await recordOf(bench, item.id);
  for (const id of [newId(), elsewhere.person('P1'), bench.incident.site()]) {
    const { body } = await give(id).expect(422);
    expect(body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/to/id' }] });
    expect(body.detail).toMatch(/person of the incident/);
  }
  expect(await recordOf(bench, item.id)).toEqual(before);
  const driver = await bench.network.post(`/v1/incidents/${bench.incident.id}/people`, { siteId: bench.incident.site(), code: 'VAN1', displayName: 'Driver of the hired van' }).expect(201);
  await give(driver.body.id).expect(201);
  expect(await bench.read(item.id)).toMatchObject({ stage: 'waiting', keeper: { kind: 'courier', id: driver.body.id } });
});

test('a partner network keeps nothing before there is mutual aid, and the answer says what to do instead', async () => {
  const item = await bench.takeIn(await bench.household());
  const before = await recordOf(bench, item.id);
  const { body } = await bench.network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: item.keeper, to: { kind: 'partner-network', id: newId() } }).expect(422);
  expect(body).toMatchObject({ code: 'command_refused', errors: [{ pointer: '#/to/kind', code: 'keeper_not_offered' }] });
  expect(body.detail).toMatch(/specialist|courier/);
  expect(await recordOf(bench, item.id)).toEqual(before);
});
