import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { StockTaking } from '../support/stock-takes.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let taking: StockTaking;
beforeAll(async () => {
  bench = await Workbench.open();
  taking = new StockTaking(bench);
});
afterAll(() => bench.close());

import { networkDigest } from '#testing';

test('what does not go with a difference, is worked off already or is none is refused, and changes nothing', async () => {
  const [shirt, lost] = await taking.shirts(2);
  const id = await taking.begin([bench.holding('dirty')]);
  await taking.send(id, [taking.seen(shirt!.tag, bench.holding('dirty'))]).expect(200);
  await taking.resolve(id, lost!.id, 'reported-missing').expect(201);
  const digest = () => networkDigest(bench.server.admin, bench.network.networkId, ['idempotency_record', 'audit_entry']);
  const before = await digest();
  expect((await taking.resolve(id, shirt!.id, 'recount').expect(404)).body.code).toBe('not_found');
  expect((await taking.resolve(id, lost!.id, 'recount').expect(409)).body).toMatchObject({ code: 'already_exists', resolution: 'reported-missing' });
  expect(await digest()).toEqual(before);
  const [other] = await taking.shirts(1);
  const second = await taking.begin([bench.holding('dirty')]);
  expect((await taking.resolve(second, other!.id, 'move-on-record').expect(422)).body.errors[0]).toMatchObject({ code: 'resolution_unfit', pointer: '#/resolution' });
  expect((await taking.resolve(second, other!.id, 'recount', { personId: bench.incident.id }).expect(422)).body.errors[0].pointer).toBe('#/personId');
});

test('two people who resolve the same difference at the same moment: one does it', async () => {
  const [shirt] = await taking.shirts(1);
  const id = await taking.begin([bench.holding('dirty')]);
  const answers = await Promise.all([taking.resolve(id, shirt!.id, 'reported-missing'), taking.resolve(id, shirt!.id, 'reported-missing')]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
  expect((await taking.read(id)).resolutions.filter(({ differenceId }: { differenceId: string }) => differenceId === shirt!.id)).toHaveLength(1);
});
