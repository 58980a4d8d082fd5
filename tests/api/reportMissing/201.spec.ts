import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { mattersOf } from '../support/matters.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let matters: ReturnType<typeof mattersOf>;
beforeAll(async () => {
  bench = await Workbench.open();
  matters = mattersOf(bench);
});
afterAll(() => bench.close());
test('the last keeper stays on record, nothing moves it, and no list and no plan holds it', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.server.admin.query("delete from plan_run where state = 'queued'");
  const { body } = await matters.missing(quilt.id).expect(201);
  expect(body.item).toMatchObject({ keeper: quilt.keeper, stage: 'waiting', missing: true, lastSeenAt: quilt.lastSeenAt });
  expect(body.event).toMatchObject({ kind: 'reported-missing', refs: { personId: matters.lead } });
  const list = await bench.network.get(`/v1/stations/${bench.incident.station('RINSE')}/work-list`).expect(200);
  expect(JSON.stringify(list.body)).not.toContain(quilt.id);
  expect((await bench.server.admin.query("select reason from plan_run where incident_id = $1 and state = 'queued'", [bench.incident.id])).rows).toEqual([{ reason: 'a thing is missing' }]);
  const started = await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'work-started', from: quilt.keeper, to: { kind: 'station', id: bench.incident.station('RINSE') } }).expect(409);
  expect(started.body).toMatchObject({ code: 'item_missing', detail: expect.stringContaining('found-again') });
  const back = await bench.handBack({ id: quilt.householdId } as never, [quilt.id]).expect(409);
  expect(back.body.code).toBe('item_missing');
});

test('it may be looked for again, by nobody named, and late', async () => {
  const quilt = await matters.quilt();
  await matters.missing(quilt.id).expect(201);
  const { body } = await bench.network.post(`/v1/items/${quilt.id}/missing-reports`, { lookedAt: '2026-05-09T06:50:00Z' }).expect(201);
  expect(body.event).toMatchObject({ seq: 3, refs: {}, occurredAt: '2026-05-09T06:50:00.000Z' });
  await matters.verified();
});

test('the situation report counts what is open', async () => {
  const before = (await bench.network.get(`/v1/incidents/${bench.incident.id}/situation-report`).expect(200)).body.openMatters;
  const [lost, doubted] = [await matters.quilt(), await matters.quilt()];
  await matters.missing(lost.id).expect(201);
  await matters.dispute(lost.id, bench.freezer()).expect(201);
  await matters.dispute(doubted.id, bench.freezer()).expect(201);
  const after = (await bench.network.get(`/v1/incidents/${bench.incident.id}/situation-report`).expect(200)).body.openMatters;
  expect(after).toEqual({ handOvers: before.handOvers, disputed: before.disputed + 2, missing: before.missing + 1 });
});
