import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const path = () => `/v1/incidents/${newId()}/items`;
const raw = (body: string, type = 'application/json') => network.post(path(), body, { 'content-type': type });

test('malformed JSON is answered with a problem document that says so', async () => {
  const answer = await raw('{"tag": ').expect(400);
  expect(answer.headers['content-type']).toContain('application/problem+json');
  expect(answer.body).toMatchObject({ code: 'body_malformed', status: 400 });
  expect(answer.body.traceId).toMatch(/^[0-9a-f]{32}$/);
});

test('a media type that the route does not take answers 415', async () => {
  expect((await raw('<a/>', 'application/xml').expect(415)).body.code).toBe('media_type_unsupported');
});

test('a body over the limit answers 413', async () => {
  expect((await raw(JSON.stringify({ description: 'x'.repeat(1_200_000) })).expect(413)).body.code).toBe('body_too_large');
});

test('unknown members, wrong types and NUL characters are named with their pointers', async () => {
  const answer = await network.post(path(), { householdId: 5, siteId: newId(), tag: 'a\u0000b', description: 'quilt', sizeClass: 'throw', keeper: 'me' }).expect(400);
  expect(answer.body.code).toBe('validation_failed');
  expect(answer.body.errors.map((error: { pointer: string }) => error.pointer)).toEqual(expect.arrayContaining(['#/householdId', '#/tag', '#/keeper']));
});

test('a prototype member in the body is refused', async () => {
  await raw('{"__proto__": {"a": 1}}').expect(400);
});

test('an unknown address answers 404 as a problem document', async () => {
  const answer = await network.get('/v1/nothing/here').expect(404);
  expect(answer.body.code).toBe('route_not_found');
});

test('a command without an Idempotency-Key is refused before anything happens', async () => {
  const answer = await network.post(path(), {}, { 'idempotency-key': 'not a uuid' });
  expect([400]).toContain(answer.status);
});

test('a cursor that we did not make is refused', async () => {
  expect((await network.get(`${path()}?cursor=abc.def`).expect(400)).body.code).toBe('cursor_invalid');
});
