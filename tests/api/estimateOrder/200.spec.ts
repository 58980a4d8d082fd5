import { afterAll, beforeAll, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { MATERIAL_CLASSES, SIGNIFICANCES, WET_STATES } from '#care';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const FLOOD = '2026-05-08T18:00:00Z';
const order = (items: object[], language = 'en') => network.post('/v1/estimates/order', { items, floodAt: FLOOD, airTempC: 24 }, { 'accept-language': language });
const ids = (body: { items: { id: string }[] }) => body.items.map(({ id }) => id);

test('what has least time comes first, and each is told why it comes before the next, in the language of the reader', async () => {
  const items = [
    { id: 'chair', assessment: { materialClass: 'metal-other', wetState: 'dry' } },
    { id: 'prints', assessment: { materialClass: 'photo-collodion-or-tintype', wetState: 'wet' } },
    { id: 'quilt', assessment: { materialClass: 'textile-quilt-padded', wetState: 'wet', fibre: 'cotton', mould: 'none' } },
  ];
  const { body } = await order(items).expect(200);
  expect(ids(body)).toEqual(['prints', 'quilt', 'chair']);
  expect(body.items[0].beforeNext).toMatchObject({ decidedBy: 'slack', inWords: expect.stringMatching(/^prints comes before quilt: its handling should have started 22 hours sooner\. The moment to start it has passed: begin now\.$/) });
  expect(body.items.at(-1).beforeNext).toBeNull();
  expect((await order(items, 'es').expect(200)).body.items[0].beforeNext.inWords).toMatch(/^prints va antes que quilt: /);
});

test('where time and damage are the same, what it means to its family decides, then the only copy, then arrival, then the name', async () => {
  const quilt = (id: string, more: object = {}, arrivedAt: string | null = '2026-05-09T06:00:00Z') => ({ id, arrivedAt, assessment: { materialClass: 'textile-quilt-padded', wetState: 'wet', significance: 'valued', onlyCopy: false, ...more } });
  const { body } = await order([quilt('z-late', {}, '2026-05-09T06:30:00Z'), quilt('b'), quilt('a'), quilt('only', { onlyCopy: null }), quilt('dear', { significance: 'irreplaceable' })]).expect(200);
  expect(ids(body)).toEqual(['dear', 'only', 'a', 'b', 'z-late']);
  expect(body.items.map(({ beforeNext }: { beforeNext: { decidedBy: string } | null }) => beforeNext?.decidedBy ?? null)).toEqual(['significance', 'only-copy', 'tag', 'arrival', null]);
});

test('the order does not depend on the order of asking', async () => {
  const thing = fc.record({ materialClass: fc.constantFrom(...MATERIAL_CLASSES), wetState: fc.constantFrom(...WET_STATES), significance: fc.constantFrom(...SIGNIFICANCES) });
  await fc.assert(
    fc.asyncProperty(fc.array(thing, { minLength: 2, maxLength: 12 }), fc.func(fc.nat()), async (things, shuffle) => {
      const items = things.map((assessment, index) => ({ id: `thing-${index}`, assessment }));
      const shuffled = items.toSorted((a, b) => shuffle(a.id) - shuffle(b.id));
      expect(ids((await order(shuffled).expect(200)).body)).toEqual(ids((await order(items).expect(200)).body));
    }),
    { numRuns: 12 },
  );
});
