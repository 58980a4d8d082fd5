import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

let codes = 0;
const shelf = async (zone: string) => ({ kind: 'shelf', id: (await bench.network.post(`/v1/incidents/${bench.incident.id}/shelves`, { siteId: bench.incident.site(), code: `S${(codes += 1)}`, name: 'Shelf', zone }).expect(201)).body.id as string });
const quilt = async (seen: object) => {
  const item = await bench.takeIn(await bench.household());
  await bench.assess(item.id, seen).expect(201);
  return (await bench.network.get(`/v1/items/${item.id}`).expect(200)).body as { id: string; tag: string; keeper: object; custodySeq: number };
};
const move = (item: { id: string; keeper: object }, to: object, change: object = {}) => bench.network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: item.keeper, to, ...change });

test('what has mould is not put onto a shelf with what is free of it: the refusal names what lies there and where it may go', async () => {
  const place = await shelf('dirty');
  const [clean, mouldy] = [await quilt({ mould: 'none' }), await quilt({ mould: 'active' })];
  await move(clean, place).expect(201);
  const { body } = await move(mouldy, place).expect(409);
  expect(body).toMatchObject({
    code: 'company_refused', place, with: expect.arrayContaining([{ tag: clean.tag, ruleId: 'apart.mould' }]), because: expect.arrayContaining([expect.stringMatching(/^Mould stays by itself/)]),
    alternatives: [{ keeper: { kind: 'holding', id: bench.incident.holding('quarantine') } }],
  });
  expect((await bench.network.get(`/v1/items/${mouldy.id}`)).body).toMatchObject({ keeper: mouldy.keeper, custodySeq: 1 });
});

test('a lead may say that it lies there all the same, and why; a helper may not', async () => {
  const place = await shelf('dirty');
  const [clean, mouldy] = [await quilt({ mould: 'none' }), await quilt({ mould: 'active' })];
  await move(clean, place).expect(201);
  await move(mouldy, place, { personId: bench.incident.person('P2'), reason: 'Sealed in two bags.' }).expect(409);
  const { body } = await move(mouldy, place, { personId: bench.incident.person('P1'), reason: 'Sealed in two bags.' }).expect(201);
  expect(body.refs).toMatchObject({ reason: 'Sealed in two bags.', personId: bench.incident.person('P1') });
});

test('what has mould does not go onto a shelf of the clean zone, even an empty one', async () => {
  const mouldy = await quilt({ mould: 'active' });
  expect((await move(mouldy, await shelf('clean')).expect(409)).body).toMatchObject({ code: 'company_refused', with: [] });
  await move(mouldy, await shelf('quarantine')).expect(201);
});

test('of two things that must not lie together and come to one shelf at the same moment, one is taken', async () => {
  for (let turn = 0; turn < 5; turn += 1) {
    const place = await shelf('dirty');
    const things = [await quilt({ mould: 'none' }), await quilt({ mould: 'active' })];
    const answers = await Promise.all(things.map((item) => move(item, place)));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
  }
});

test('a scan is refused by the same rule, in the language of whoever scans', async () => {
  const place = await shelf('dirty');
  const [clean, mouldy] = [await quilt({ mould: 'none' }), await quilt({ mould: 'active' })];
  const scans = [clean, mouldy].map((item) => ({ scanId: newId(), itemTag: item.tag, place, seenAt: new Date(bench.server.clock.nowMs()).toISOString(), baseSeq: 1 }));
  const { body } = await bench.network.post(`/v1/incidents/${bench.incident.id}/scans`, { scans }, { 'accept-language': 'es' }).expect(200);
  expect(body.results.map(({ verdict }: { verdict: string }) => verdict)).toEqual(['applied', 'refused']);
  expect(body.results[1].problem).toMatchObject({ code: 'company_refused', because: expect.arrayContaining([expect.stringMatching(/^El moho se queda aparte/)]) });
});
