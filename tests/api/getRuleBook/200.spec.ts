import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { CHOICES, RULE_BOOK } from '#care';
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
