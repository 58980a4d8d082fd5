import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ClaimDesks } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());

const open = (itemId: string, change: object = {}) => bench.network.post(`/v1/items/${itemId}/unclaimed`, { deciderId: bench.incident.person('P1'), ...change });
const pathsOf = async (itemId: string) => ((await bench.network.get(`/v1/incidents/${bench.incident.id}/uncollected?limit=200`).expect(200)).body.items as { itemId: string | null; state: string; reminders: number; due: string | null }[]).filter((path) => path.itemId === itemId);

test('its dates are those of our own calibration, which a network may set; the law comes first, and one path is open at a time', async () => {
  const { itemId } = await desks.found();
  const { body } = await open(itemId).expect(201);
  expect(body).toMatchObject({ votes: 0, caution: expect.stringContaining('Local law on found property decides'), path: { itemId, state: 'open', openedAt: '2026-05-09T07:00:00.000Z', firstReminderAt: '2026-05-23T07:00:00.000Z', secondReminderAt: '2026-07-08T07:00:00.000Z', decideAt: '2027-05-09T07:00:00.000Z', due: null } });
  expect((await open(itemId).expect(409)).body).toMatchObject({ code: 'already_exists', uncollectedId: body.path.id });
  const set = (key: string, value: number, number: number) => bench.network.put(`/v1/calibration/found/${key}`, { value, reason: 'The office says so.', personId: bench.incident.person('P1') }, { 'if-match': `"${number}"` });
  expect((await set('firstNoticeDays', 60, 0).expect(422)).body.errors[0].detail).toContain('must follow each other');
  await set('decideDays', 90, 0).expect(200);
  expect((await open((await desks.found()).itemId).expect(201)).body.path.decideAt).toBe('2026-08-07T07:00:00.000Z');
});

test('each thing has a path of its own, beside those of households, and the notices at the desk are recorded on it', async () => {
  const [one, other] = [await desks.found(), await desks.found()];
  const { id } = (await open(one.itemId, { noticedAt: '2026-04-20T00:00:00Z' }).expect(201)).body.path;
  await open(other.itemId).expect(201);
  expect(await pathsOf(one.itemId)).toMatchObject([{ due: 'first-reminder', reminders: 0 }]);
  await bench.network.post(`/v1/uncollected/${id}/reminders`, {}).expect(200);
  expect(await pathsOf(one.itemId)).toMatchObject([{ due: null, reminders: 1 }]);
  expect(await pathsOf(other.itemId)).toMatchObject([{ reminders: 0 }]);
});

test('ends by itself when its owner is known, and when its record is joined to another one', async () => {
  const [theirs, doubled, kept] = [await desks.found(), await desks.found(), await desks.found()];
  for (const { itemId } of [theirs, doubled]) await open(itemId).expect(201);
  await desks.grant((await desks.claim(theirs.itemId, (await bench.household()).id)).id);
  expect(await pathsOf(theirs.itemId)).toMatchObject([{ state: 'ended', due: null }]);
  await bench.network.post(`/v1/items/${doubled.itemId}/merges`, { into: kept.itemId, reason: 'taken-in-twice', personId: bench.incident.person('P1') }).expect(201);
  expect(await pathsOf(doubled.itemId)).toMatchObject([{ state: 'ended' }]);
});

test('is refused for a thing with an owner, an unknown person, days that do not follow each other, and another network', async () => {
  const { itemId } = await desks.found();
  expect((await open((await bench.takeIn(await bench.household())).id).expect(409)).body.code).toBe('owner_known');
  expect((await open(itemId, { deciderId: itemId }).expect(422)).body.code).toBe('reference_unknown');
  await open(itemId, { days: { firstReminder: 20, secondReminder: 10, decide: 30 } }).expect(400);
  await (await bench.server.network()).post(`/v1/items/${itemId}/unclaimed`, { deciderId: bench.incident.person('P1') }).expect(404);
  expect(await pathsOf(itemId)).toEqual([]);
});
