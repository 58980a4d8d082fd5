import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

/** A double quilt: 2.1 kg dry by its class, padded. */
async function quilt(): Promise<string> {
  bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
  const item = await bench.takeIn(await bench.household());
  bench.server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  return item.id;
}
const weigh = (itemId: string, body: object, headers?: Record<string, string>) => bench.network.post(`/v1/items/${itemId}/weighings`, { resolutionKg: 0.1, ...body }, headers);
const at = (clock: string) => `2026-05-09T${clock}:00.000Z`;
const doubts = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/weighings`).expect(200)).body.items.map(({ weighedAt, doubt }: { weighedAt: string; doubt: { code: string } | null }) => [weighedAt.slice(11, 16), doubt?.code ?? null]);

describe('recordWeighing answers 201', () => {
  test('with the mass of the thing alone, and who weighed it where', async () => {
    const id = await quilt();
    const { body, headers } = await weigh(id, { scaleKg: 12.4, tareKg: 0.3, weighedAt: at('10:00'), personId: bench.incident.person('P3'), dryingPlaceId: bench.incident.place('R1'), note: 'In the grey tub.' }).expect(201);
    expect(body).toMatchObject({ itemId: id, scaleKg: 12.4, tareKg: 0.3, massKg: 12.1, personId: bench.incident.person('P3'), dryingPlaceId: bench.incident.place('R1'), note: 'In the grey tub.', state: 'accepted', doubt: null });
    expect(headers['location']).toBe(`/v1/items/${id}/weighings`);
  });

  test('a weight that went up by more than the scale allows is kept, and it is asked whether it was wetted again or it was another scale', async () => {
    const id = await quilt();
    await weigh(id, { scaleKg: 6, weighedAt: at('10:00') }).expect(201);
    await weigh(id, { scaleKg: 6.2, weighedAt: at('10:30') }).expect(201);
    const { body } = await weigh(id, { scaleKg: 6.5, weighedAt: at('11:00') }).expect(201);
    expect(body).toMatchObject({ state: 'doubtful', doubt: { code: 'heavier-than-before', text: expect.stringMatching(/wetted again.*another scale/) } });
    expect(await doubts(id)).toEqual([['11:00', 'heavier-than-before'], ['10:30', null], ['10:00', null]]);
  });

  test('a late slip is judged as if it had come in time, and so is what was weighed after it', async () => {
    const id = await quilt();
    await weigh(id, { scaleKg: 7, weighedAt: at('09:00') }).expect(201);
    await weigh(id, { scaleKg: 6.5, weighedAt: at('11:00') }).expect(201);
    await weigh(id, { scaleKg: 6, weighedAt: at('10:00') }).expect(201);
    expect(await doubts(id)).toEqual([['11:00', 'heavier-than-before'], ['10:00', null], ['09:00', null]]);
  });

  test('a rinse between two weighings explains that it became heavier', async () => {
    bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
    const { id } = await bench.testedQuilt(await bench.household());
    bench.server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
    await weigh(id, { scaleKg: 4, weighedAt: at('08:00') }).expect(201);
    await bench.report(id, 'rinse', 'done', { finishedAt: at('09:00') }).expect(201);
    expect((await weigh(id, { scaleKg: 9, weighedAt: at('10:00') }).expect(201)).body).toMatchObject({ state: 'accepted', doubt: null });
  });

  test('a weight that is odd for the size class is kept and asked about', async () => {
    const id = await quilt();
    expect((await weigh(id, { scaleKg: 30, weighedAt: at('10:00') }).expect(201)).body.doubt).toMatchObject({ code: 'heavier-than-such-things' });
    expect((await weigh(id, { scaleKg: 1.2, weighedAt: at('11:00') }).expect(201)).body.doubt).toMatchObject({ code: 'lighter-than-such-things' });
  });

  test('the same weighing again answers 200 with the one that is there; another weight for the moment answers 409 and names both', async () => {
    const id = await quilt();
    const first = await weigh(id, { scaleKg: 6, weighedAt: at('10:00') }).expect(201);
    const again = await weigh(id, { scaleKg: 6, weighedAt: '2026-05-09T12:00:00+02:00' }).expect(200);
    expect(again.body).toEqual(first.body);
    const { body } = await weigh(id, { scaleKg: 6.4, weighedAt: at('10:00') }).expect(409);
    expect(body.code).toBe('measurement_conflicts');
    for (const value of ['6 kg', '6.4 kg']) expect(body.detail).toContain(value);
    expect(await doubts(id)).toHaveLength(1);
  });

  test('of the same weighing sent many times at once one is kept', async () => {
    const id = await quilt();
    const answers = await Promise.all(Array.from({ length: 6 }, () => weigh(id, { scaleKg: 6, weighedAt: at('10:00') })));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 200, 200, 200, 200, 201]);
  });
});
