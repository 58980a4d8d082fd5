import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('condition, tests, hours since wetting, protection, the word of the owner with its limit, and no name', async () => {
  const household = await bench.household([{ scope: 'refer', given: true, manner: 'spoken', limit: { minor: 25_000, currency: 'USD' } }]);
  const quilt = await bench.assessedQuilt(household);
  await bench.colourTest(quilt.id, 'any-transfer', false).expect(201);
  const { body } = await bench.network.get(`/v1/items/${quilt.id}/referral-package`).expect(200);
  expect(body).toMatchObject({
    itemId: quilt.id, tag: quilt.tag, hoursWet: 13, sinceFlood: true, allColoursTested: false, tests: [{ colour: 'red border', reading: 'any-transfer' }], now: { wetState: 'wet', water: 'black' },
    consent: { refer: true, treat: null, limit: { minor: 25_000, currency: 'USD' } }, quotes: [], photographs: [{ reference: 'photo-1' }],
  });
  expect(body.protection.ppe.join(' ')).toContain('gloves');
  expect(body.referral.join(' ')).toContain('The dye moves');
  expect(JSON.stringify(body)).not.toContain('Contact of');
  const spanish = (await bench.network.get(`/v1/items/${quilt.id}/referral-package`, { 'accept-language': 'es' }).expect(200)).body;
  expect(spanish.protection.ppe.join(' ')).toContain('guantes');
});
