import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { submit } from '../submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('404 for an import that is not the key\'s to see', () => {
  test.each(['', '/rows', '/refused-rows'])('getIntakeImport%s: another network\'s, another incident\'s and a made-up one answer alike', async (part) => {
    const ours = await server.network();
    const theirs = await server.network();
    const incident = await theirs.incident();
    const { body: created } = await submit(theirs, incident, 'tag,household\nA,HH-1\n').expect(201);
    const limited = theirs.as(await theirs.newKey({ incidentId: (await theirs.incident()).id }));
    const answers = [
      await ours.get(`/v1/intake-imports/${created.id}${part}`).expect(404),
      await limited.get(`/v1/intake-imports/${created.id}${part}`).expect(404),
      await ours.get(`/v1/intake-imports/${newId()}${part}`).expect(404),
    ];
    expect(new Set(answers.map(({ body }) => `${body.code} ${body.detail}`)).size).toBe(1);
    await ours.get(`/v1/intake-imports/not-an-id${part}`).expect(404);
    await theirs.get(`/v1/intake-imports/${created.id}${part}`).expect(200);
  });
});
