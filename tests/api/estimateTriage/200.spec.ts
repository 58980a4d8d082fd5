import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest } from '#testing';
import { SOUND_COTTON, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const FLOOD = '2026-05-08T18:00:00Z';
const estimate = (assessment: object, more: object = {}, language = 'en') => bench.network.post('/v1/estimates/triage', { assessment, floodAt: FLOOD, airTempC: 24, ...more }, { 'accept-language': language, 'idempotency-key': '' });

test('what is estimated for a description is what an item on record is told, word for word, with what to ask next; nothing is stored', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const stored = (await bench.network.get(`/v1/items/${quilt.id}/triage`).expect(200)).body;
  const { materialClass, count, water, significance, consents } = stored.observed;
  const before = await networkDigest(bench.server.admin, bench.network.networkId);
  const { body } = await estimate({ ...SOUND_COTTON, materialClass, count, water, significance, consents }, { doneSteps: ['assess'] }).expect(200);
  expect(await networkDigest(bench.server.admin, bench.network.networkId)).toEqual(before);
  const { estimatedAt, ...result } = body;
  expect(estimatedAt).toBe('2026-05-09T07:00:00.000Z');
  for (const [member, value] of Object.entries(result)) expect([member, value]).toEqual([member, stored[member]]);
  expect(result.askNext.length).toBeGreaterThan(3);
});

test('what nobody described counts on the cautious side', async () => {
  const { body } = await estimate({}).expect(200);
  expect(body).toMatchObject({ treatedAs: 'unknown', options: [{ disposition: 'refer' }] });
  expect(body.askNext[0].observation).toBe('materialClass');
});

test('the words are those of the reader', async () => {
  const quilt = { materialClass: 'textile-quilt-padded', fibre: 'cotton', wetState: 'wet', alreadyBled: true };
  const [english, spanish] = [await estimate(quilt).expect(200), await estimate(quilt, {}, 'es-MX').expect(200)];
  expect([english.headers['content-language'], spanish.headers['content-language']]).toEqual(['en', 'es']);
  expect(spanish.body.never.every(({ text }: { text: string }) => text.startsWith('Nunca'))).toBe(true);
  expect(spanish.body.options.map(({ disposition }: { disposition: string }) => disposition)).toEqual(english.body.options.map(({ disposition }: { disposition: string }) => disposition));
});

test('it is worked out by the rule book that the network follows', async () => {
  await bench.network.post('/v1/rulebook/choices', { choices: { 'mould-clock': '24h' }, reason: 'A hot week.', personId: bench.incident.person('P1') }, { 'if-match': '"0"' }).expect(201);
  const { body } = await estimate({ materialClass: 'textile-flat-small', wetState: 'wet', mould: 'none' }).expect(200);
  expect(body.ruleBookVersion).toContain('+mould-clock=24h');
});

test('the moment can be named: the same thing a day later is more urgent', async () => {
  const thing = { materialClass: 'textile-flat-small', wetState: 'wet', mould: 'none' };
  const [now, later] = [await estimate(thing, { now: '2026-05-08T20:00:00Z' }).expect(200), await estimate(thing, { now: '2026-05-10T20:00:00Z' }).expect(200)];
  expect(now.body.urgency).not.toBe('immediate');
  expect(later.body.urgency).toBe('immediate');
});

test('another release can be asked, with what the network has chosen', async () => {
  const framed = { materialClass: 'paper-framed', wetState: 'wet', mould: 'none' };
  const says = (body: { cautions: { text: string }[] }) => body.cautions.map(({ text }) => text).includes('Stuck to the glass: leave it there and dry it with the glass side down.');
  const [now, before] = [(await estimate(framed).expect(200)).body, (await estimate(framed, { release: '2026.2' }).expect(200)).body];
  expect([now.ruleBookVersion, says(now)]).toEqual(['2026.11+mould-clock=24h', true]);
  expect([before.ruleBookVersion, says(before)]).toEqual(['2026.2+mould-clock=24h', false]);
  expect((await estimate(framed, { release: '2031.5' }).expect(400)).body.errors[0].pointer).toBe('#/release');
});
