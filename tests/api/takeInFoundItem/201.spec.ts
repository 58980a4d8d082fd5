import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { foundInDatabase } from '../eraseHousehold/raw-dump.js';
import { ClaimDesks } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());
const ownerOf = async (itemId: string) => (await bench.read(itemId))['householdId'] as string;

test('a found thing is an item like any other, triaged, with one keeper; place, finder and marks stand in no byte of the database', async () => {
  const { itemId } = await desks.found();
  expect(await bench.read(itemId)).toMatchObject({ stage: 'waiting', keeper: bench.holding('dirty'), custodySeq: 1, nextStep: expect.any(String), urgency: expect.any(String) });
  expect(await foundInDatabase(bench.server.admin, ['Karmesin', 'Xanthippe', '0699-271828', 'brass bells', 'sewn into', 'Ottilie'])).toEqual([]);
});

test('two that are the first at the same time share one record of unknown owners, which no list of households shows', async () => {
  const other = await bench.network.incident();
  const incident = { ...bench, incident: other } as Workbench;
  const first = await ClaimDesks.open(incident);
  const [one, two] = await Promise.all([first.found({ siteId: other.site() }), first.found({ siteId: other.site() })]);
  expect(await ownerOf(one.itemId)).toBe(await ownerOf(two.itemId));
  expect((await bench.network.get(`/v1/incidents/${other.id}/households`).expect(200)).body.items).toEqual([]);
});

test('nobody is asked, told or waited for', async () => {
  await desks.found();
  const { rows } = await bench.server.admin.query('select (select count(*)::int from owner_question q join household h on h.id = q.household_id where h.unknown_owner) as questions, (select count(*)::int from family_message m join household h on h.id = m.household_id where h.unknown_owner) as messages');
  expect(rows[0]).toEqual({ questions: 0, messages: 0 });
});

test('a day that lies ahead is refused, and a household has no things of its own among the found', async () => {
  const before = await bench.server.admin.query('select count(*)::int as n from item');
  await expect(desks.found({ foundOn: '2026-05-20' })).rejects.toThrow(/422/);
  expect((await bench.server.admin.query('select count(*)::int as n from item')).rows).toEqual(before.rows);
});

describe('for a thing without a known owner', () => {
  const who = async () => ownerOf((await desks.found()).itemId);
  const lead = () => bench.incident.person('P1');
  test.each<[string, () => Promise<{ body: { code: string } }>]>([
    ['no item is taken in by the ordinary way', async () => bench.network.post(`/v1/incidents/${bench.incident.id}/items`, { householdId: await who(), siteId: bench.incident.site(), tag: (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'x' })).body.tags[0], description: 'x', sizeClass: 'garment' }).expect(409)],
    ['nothing is agreed', async () => bench.network.post(`/v1/households/${await who()}/consents`, { scope: 'release', given: true, manner: 'spoken' }).expect(409)],
    ['nothing is handed back', async () => {
      const { itemId } = await desks.found();
      return bench.handBack({ id: await ownerOf(itemId), code: '' }, [itemId]).expect(409);
    }],
    ['nothing is released', async () => bench.network.post(`/v1/items/${(await desks.found()).itemId}/releases`, { to: 'disposed', personId: lead() }).expect(409)],
    ['nobody is asked', async () => bench.network.post(`/v1/items/${(await desks.found()).itemId}/questions`, { kind: 'photograph' }).expect(409)],
    ['no private page is opened', async () => bench.network.post(`/v1/households/${await who()}/status-links`, {}).expect(409)],
    ['no message is sent', async () => bench.network.post(`/v1/households/${await who()}/family-messages`, { template: 'ready' }).expect(409)],
    ['nothing is told as if to its owner', async () => bench.network.get(`/v1/households/${await who()}/situation-report`).expect(409)],
    ['nobody gets a copy of all that is held', async () => bench.network.get(`/v1/households/${await who()}/personal-data`).expect(409)],
    ['the record is never erased', async () => bench.network.post(`/v1/households/${await who()}/erasures`, { personId: lead(), reason: 'owner-asked' }).expect(409)],
  ])('%s', async (_, ask) => expect((await ask()).body.code).toBe('owner_unknown'));
});
