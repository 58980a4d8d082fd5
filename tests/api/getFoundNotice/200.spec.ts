import { afterAll, beforeAll, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { MATERIAL_CLASSES } from '#care';
import { ClaimDesks } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());

test('says the broad kind, the place of the incident and the week, in both languages', async () => {
  const { itemId } = await desks.found();
  const { body } = await bench.network.get(`/v1/items/${itemId}/found-notice`).expect(200);
  expect(body.en).toMatch(/^A thing of cloth was found\. Area: Elmsford Reach \(invented\)\. Week that began on 2026-05-04\. If you miss/);
  expect(body.es).toMatch(/^Se encontró un objeto de tela\. Zona: Elmsford Reach \(invented\)\. Semana que comenzó el 2026-05-04\. Si a usted/);
});

/** Invented words of letters that no sentence of ours has in such a row. */
const word = fc.stringMatching(/^[bcdfgkxz]{6,12}$/).map((letters) => `q${letters}`);
const words = fc.array(word, { minLength: 1, maxLength: 4 }).map((list) => list.join(' '));

test('no word of description, marks, finder, place or photograph reaches it, whatever they are', async () => {
  const told = fc.record({ description: words, foundPlace: words, finder: words, photographRef: word, question: words, answer: words, materialClass: fc.constantFrom(...MATERIAL_CLASSES) });
  await fc.assert(fc.asyncProperty(told, async ({ question, answer, materialClass, ...said }) => {
    const { itemId } = await desks.found({ ...said, materialClass, sizeClass: 'garment', marks: [{ question, answer }] });
    const { text } = await bench.network.get(`/v1/items/${itemId}/found-notice`).expect(200);
    for (const one of [...Object.values(said), question, answer].flatMap((part) => part.split(' '))) expect(text).not.toContain(one);
  }), { numRuns: 25 });
});

test('404 for a thing of another network and for one that was not found', async () => {
  const { itemId } = await desks.found();
  await (await bench.server.network()).get(`/v1/items/${itemId}/found-notice`).expect(404);
  await bench.network.get(`/v1/items/${(await bench.takeIn(await bench.household())).id}/found-notice`).expect(404);
});
