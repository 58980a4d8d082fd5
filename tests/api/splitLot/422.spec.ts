import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { reserveTestTags } from '#testing';
import { Workbench } from '../support/workbench.js';
import { changingNothing, printsOf, split } from './split.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test.each([[240, 'takes_all'], [241, 'takes_all']])('%d of 240 pieces are refused with how many may be taken', async (count, code) => {
  const lot = await printsOf(bench);
  const answer = await changingNothing(bench, () => split(bench, lot.id, count));
  expect(answer).toMatchObject({ status: 422, body: { code: 'command_refused', reason: code, pieces: 240, errors: [{ pointer: '#/count', code }] } });
  expect(answer.body['detail']).toContain('at most 239');
});

test('one thing is no lot', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  expect(await changingNothing(bench, () => split(bench, quilt.id, 1))).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'not_a_lot' } });
});

test('a tag with a wrong character, and one that nobody reserved', async () => {
  const lot = await printsOf(bench, 10);
  const [tag = ''] = await reserveTestTags(bench.network, bench.incident, 1);
  expect(await changingNothing(bench, () => split(bench, lot.id, 4, { tag: tag.slice(0, 2) + (tag[2] === 'Z' ? 'B' : 'Z') + tag.slice(3) }))).toMatchObject({ status: 422, body: { code: 'tag_invalid', nearest: expect.arrayContaining([tag]) } });
  const [container] = await reserveTestTags(bench.network, bench.incident, 1, 'container');
  expect(await changingNothing(bench, () => split(bench, lot.id, 4, { tag: container }))).toMatchObject({ status: 422, body: { code: 'tag_invalid' } });
});

test('somebody who is nobody of the incident, and a time that lies ahead', async () => {
  const lot = await printsOf(bench, 10);
  expect(await changingNothing(bench, () => split(bench, lot.id, 4, { personId: bench.incident.site() }))).toMatchObject({ status: 422, body: { errors: [{ pointer: '#/personId' }] } });
  expect(await changingNothing(bench, () => split(bench, lot.id, 4, { splitAt: '2026-05-09T09:00:00Z' }))).toMatchObject({ status: 422, body: { errors: [{ pointer: '#/splitAt' }] } });
});
