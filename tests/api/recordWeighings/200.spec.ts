import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

/** Double quilts: 2.1 kg dry by their class. */
async function quilts(count: number) {
  bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
  const household = await bench.household();
  const items = [];
  for (let n = 0; n < count; n += 1) items.push(await bench.takeIn(household));
  bench.server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  return items;
}
const at = (clock: string) => `2026-05-09T${clock}:00.000Z`;
const send = (weighings: object[], headers?: Record<string, string>) => bench.network.post(`/v1/incidents/${bench.incident.id}/weighings`, { weighings }, headers);
const keptOf = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/weighings`).expect(200)).body.items as { id: string; scaleKg: number; state: string }[];

describe('recordWeighings answers 200', () => {
  test('with what became of each of twenty, by tag or id, and each stands with its thing', async () => {
    const items = await quilts(20);
    const { body } = await send(items.map(({ id, tag }, n) => ({ item: n % 2 === 0 ? tag : id, scaleKg: 5 + n / 10, resolutionKg: 0.02, weighedAt: at('10:00') }))).expect(200);
    expect(body).toMatchObject({ accepted: 20, doubtful: 0, duplicate: 0, conflicting: 0, refused: 0 });
    expect(body.rows.map(({ row, itemId }: { row: number; itemId: string }) => [row, itemId])).toEqual(items.map(({ id }, n) => [n + 1, id]));
    for (const [n, { id }] of items.entries()) expect(await keptOf(id)).toMatchObject([{ id: body.rows[n].id, scaleKg: 5 + n / 10, state: 'accepted' }]);
  });

  test('a bad row is refused with its reasons and holds up no other', async () => {
    const [first, second] = await quilts(2);
    const weighing = { item: first!.tag, scaleKg: 6, weighedAt: at('10:00') };
    const { body } = await send([
      weighing, weighing, { ...weighing, scaleKg: 6.4 }, { ...weighing, item: 'not a tag' }, { ...weighing, scaleKg: '6' }, { ...weighing, weighedAt: at('10:10'), scaleKg: 90 }, { ...weighing, weighedAt: at('10:20'), rain: 1 },
      { ...weighing, weighedAt: at('10:30'), personId: bench.incident.room('ROOM') }, { ...weighing, weighedAt: at('10:40'), scaleKg: 7 }, { ...weighing, item: second!.id },
    ]).expect(200);
    expect(body).toMatchObject({ accepted: 2, doubtful: 1, duplicate: 1, conflicting: 1, refused: 5 });
    expect(body.rows.map(({ outcome, remarks }: { outcome: string; remarks: { code: string; member: string }[] }) => [outcome, ...remarks.map(({ code, member }) => `${code} ${member}`)])).toEqual([
      ['accepted'], ['duplicate'], ['conflicting', 'conflicting scaleKg'], ['refused', 'reference_unknown item'], ['refused', 'malformed scaleKg'], ['refused', expect.stringMatching(/ /)], ['refused', 'malformed '],
      ['refused', 'reference_unknown personId'], ['doubtful', 'heavier-than-before scaleKg'], ['accepted'],
    ]);
    expect((await keptOf(first!.id)).map(({ scaleKg }) => scaleKg)).toEqual([7, 6]);
    expect(body.rows[1].id).toBe(body.rows[0].id);
  });

  test('rows are judged as if each had come alone: a late one among them judges what was weighed after it', async () => {
    const [one] = await quilts(1);
    const weighing = (clock: string, scaleKg: number) => ({ item: one!.id, scaleKg, weighedAt: at(clock) });
    await send([weighing('09:00', 7), weighing('11:00', 6.5), weighing('10:00', 6)]).expect(200);
    expect((await keptOf(one!.id)).map(({ state }) => state)).toEqual(['doubtful', 'accepted', 'accepted']);
  });

  test('the room where the things hang is reckoned anew', async () => {
    const quilt = await bench.testedQuilt(await bench.household());
    for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
    await bench.hang(quilt.id);
    await bench.server.admin.query("update outbox set done_at = now() where kind = 'climate.readings'");
    await send([{ item: quilt.tag, scaleKg: 4, weighedAt: at('12:00') }]).expect(200);
    const { rows } = await bench.server.admin.query("select 1 from outbox where kind = 'climate.readings' and done_at is null and subject_id = $1", [bench.incident.room('ROOM')]);
    expect(rows).toHaveLength(1);
  });
});
