import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const newKit = async (slips: number) => (await bench.network.post(`/v1/sites/${bench.incident.site()}/paper-kits`, { slips }).expect(201)).body as { id: string; tags: string[] };
const slip = (slipNo: number, household: object, change: object = {}) => ({ slipNo, writtenAt: '2026-05-09T06:10:00Z', household, description: 'Baby blanket', sizeClass: 'throw', materialClass: 'textile-flat-large', ...change });
const key = (kitId: string, slips: object[], headers: Record<string, string> = {}) => bench.network.post(`/v1/paper-kits/${kitId}/keyed-slips`, { personId: bench.incident.person('P2'), slips }, headers);
type Verdict = { slipNo: number; verdict: string; itemId: string | null; problem: { code: string; errors?: { pointer: string }[] } | null };

test('a fault of one slip holds up no other, and says what to fix; each place in the answer is the place in the request', async () => {
  const [kit, household] = [await newKit(9), await bench.household()];
  const known = { code: household.code };
  const { results } = (await key(kit.id, [
    slip(3, known, { writtenAt: '2026-05-09T06:30:00Z' }), slip(99, known), slip(4, { code: 'HH-NOBODY' }), slip(5, known, { writtenAt: null }), slip(6, known, { writtenAt: '2026-05-09T23:00:00Z' }),
    slip(7, known, { to: { kind: 'holding', id: newId() } }), slip(8, known, { wettedAt: '2026-05-09T06:30:00Z' }), { slipNo: 9, void: 'lost' }, slip(3, known, { description: 'Another thing' }),
  ]).expect(200)).body as { results: Verdict[] };
  expect(results.map(({ slipNo, verdict, problem }) => [slipNo, verdict, problem?.code ?? null])).toEqual([
    [3, 'refused', 'already_exists'], [99, 'refused', 'reference_unknown'], [4, 'refused', 'reference_unknown'], [5, 'refused', 'command_refused'], [6, 'refused', 'command_refused'],
    [7, 'refused', 'reference_unknown'], [8, 'refused', 'observations_contradict'], [9, 'void', null], [3, 'keyed', null],
  ]);
  expect(results[3]?.problem?.errors?.[0]?.pointer).toBe('#/slips/3/writtenAt');
  const { rows } = await bench.server.admin.query('select count(*)::int as items from item where household_id = $1', [household.id]);
  expect(rows[0].items).toBe(1);
});

test('two desks key the same slip at the same moment: one thing is taken in, and both are told the same', async () => {
  const [kit, household] = [await newKit(1), await bench.household()];
  const answers = await Promise.all(Array.from({ length: 6 }, () => key(kit.id, [slip(1, { code: household.code })]).expect(200)));
  const verdicts = answers.flatMap(({ body }) => body.results as Verdict[]);
  expect(verdicts.map(({ verdict }) => verdict).sort()).toEqual(['keyed', ...Array<string>(5).fill('keyed-before')]);
  expect(new Set(verdicts.map(({ itemId }) => itemId)).size).toBe(1);
});

test('what the owner ticked is on record for this thing, in writing; letting go cannot be ticked', async () => {
  const [kit, household] = [await newKit(2), await bench.household([])];
  const { results } = (await key(kit.id, [slip(1, { code: household.code }, { consents: [{ scope: 'treat', given: true }, { scope: 'freeze', given: false }] })]).expect(200)).body as { results: Verdict[] };
  const { consents } = (await bench.network.get(`/v1/households/${household.id}`).expect(200)).body;
  expect(consents.map(({ scope, given, manner, itemId }: { scope: string; given: boolean; manner: string; itemId: string }) => [scope, given, manner, itemId])).toEqual(expect.arrayContaining([['treat', true, 'written', results[0]?.itemId], ['freeze', false, 'written', results[0]?.itemId]]));
  await key(kit.id, [slip(2, { code: household.code }, { consents: [{ scope: 'release', given: true }] })]).expect(400);
  const other = await bench.server.network();
  await other.post(`/v1/paper-kits/${kit.id}/keyed-slips`, { personId: newId(), slips: [{ slipNo: 2, void: 'lost' }] }).expect(404);
});
