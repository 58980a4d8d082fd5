import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { buildBook, CHOICES, choicesOf, RULE_BOOK } from '#care';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('every marked choice stands there with all its sides, their sources, which is in force and whether it is a floor; no rule is unmarked', async () => {
  const network = await server.network();
  const { body } = await network.get('/v1/rulebook').expect(200);
  expect(body.choices.map(({ id, floor, inForce }: { id: string; floor: boolean; inForce: string }) => [id, floor, inForce])).toEqual(CHOICES.map((choice) => [choice.id, choice.floor, choice.default]));
  for (const { options } of body.choices) {
    expect(options.length).toBeGreaterThan(1);
    for (const { text, source } of options) expect([text, source.cite].every((words: string) => words.length > 3)).toBe(true);
  }
  const { total, floors, byMark } = body.rules;
  expect(total).toBe(RULE_BOOK.length);
  expect(Object.values<number>(byMark).reduce((sum, n) => sum + n, 0)).toBe(total);
  expect(floors).toBe(RULE_BOOK.filter(({ floor }) => floor).length);
});

test('it is told in the language of the reader, and its entity tag is that of the language', async () => {
  const network = await server.network();
  const spanish = await network.get('/v1/rulebook', { 'accept-language': 'es' }).expect(200);
  expect(spanish.headers['content-language']).toBe('es');
  expect(spanish.headers['etag']).toBe('"0-es"');
});

test('a lead of another incident is not named to a key of one incident', async () => {
  const network = await server.network();
  const [here, there] = [await network.incident(), await network.incident()];
  await network.post('/v1/rulebook/choices', { choices: { sunlight: 'everyday-only' }, reason: 'Crusted mould on towels.', personId: there.person('P1') }, { 'if-match': '"0"' }).expect(201);
  const seenBy = async (incidentId: string) => (await network.as(await network.newKey({ incidentId })).get('/v1/rulebook').expect(200)).body.decision;
  expect(await seenBy(there.id)).toMatchObject({ decidedBy: { id: there.person('P1') } });
  expect(await seenBy(here.id)).toMatchObject({ number: 1, decidedBy: null });
});

test('another release is shown as the network would follow it: with its own choices, as far as that release has them', async () => {
  const network = await server.network();
  const incident = await network.incident();
  await network.post('/v1/rulebook/choices', { choices: { 'mould-clock': '24h', 'wrap-bench': 'at-the-freezer' }, reason: 'One bench, warm halls.', personId: incident.person('P1') }, { 'if-match': '"0"' }).expect(201);
  const { body } = await network.get('/v1/rulebook?release=2026.2').expect(200);
  expect(body).toMatchObject({ version: '2026.2+mould-clock=24h', release: '2026.2', follows: '2026.11', newest: '2026.11', number: 1, lapsed: ['wrap-bench'], lapsedRelease: null, decision: { release: '2026.11' } });
  expect(body.choices.map(({ id }: { id: string }) => id)).toEqual(choicesOf('2026.2').map(({ id }) => id));
  expect(body.rules.total).toBe(buildBook({ release: '2026.2' }).rules.length);
});

test('a release that there is not is refused with those that there are', async () => {
  const { body } = await (await server.network()).get('/v1/rulebook?release=2019.1').expect(400);
  expect(JSON.stringify(body)).toContain('2026.11');
});
