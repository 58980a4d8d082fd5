import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const send = (weighings: object[]) => bench.network.post(`/v1/incidents/${bench.incident.id}/weighings`, { weighings });

test('when not one weighing can be kept, every reason is named and nothing is changed', async () => {
  const { id } = await bench.takeIn(await bench.household());
  const weighing = { item: id, weighedAt: '2026-05-09T07:00:00Z' };
  const { body } = await send([{ ...weighing, scaleKg: 500 }, { ...weighing, item: 'nothing', scaleKg: 5 }, weighing]).expect(422);
  expect(body).toMatchObject({ code: 'measurement_refused', detail: expect.stringMatching(/^None of the 3 weighings can be kept.*Nothing was changed\.$/) });
  expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(expect.arrayContaining(['#/weighings/1/item', '#/weighings/2/scaleKg']));
  expect((await bench.network.get(`/v1/items/${id}/weighings`).expect(200)).body.items).toEqual([]);
});

test('a thing of another incident or network is named by no row, as one that never was', async () => {
  const there = await Workbench.open();
  try {
    const theirs = await there.takeIn(await there.household());
    const { body } = await send([{ item: theirs.id, scaleKg: 5, weighedAt: '2026-05-09T07:00:00Z' }]).expect(422);
    const { body: never } = await send([{ item: '0198b7a0-0000-7000-8000-0000000000ff', scaleKg: 5, weighedAt: '2026-05-09T07:00:00Z' }]).expect(422);
    expect(body.errors).toEqual(never.errors);
    expect(body.detail).toBe(never.detail);
  } finally {
    await there.close();
  }
});
