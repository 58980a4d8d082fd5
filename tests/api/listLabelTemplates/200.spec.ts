import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { BUILT_IN_TEMPLATES } from '#custody';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('those of the program come first, then the network’s own, page by page and each once', async () => {
  const network = await server.network();
  const own = await Promise.all(['Film A', 'Film B', 'Film C'].map(async (name) => (await network.post('/v1/label-templates', { name, template: BUILT_IN_TEMPLATES[1]?.template }).expect(201)).body.id as string));
  const ids: string[] = [];
  for (let path: string | null = '/v1/label-templates?limit=4'; path !== null; ) {
    const { body } = (await network.get(path).expect(200)) as { body: { items: { id: string; builtIn: boolean; notes: string[]; codeHeightMm: number }[]; nextCursor: string | null } };
    ids.push(...body.items.map(({ id }) => id));
    for (const item of body.items) expect([item.builtIn, item.notes, item.codeHeightMm >= 5]).toEqual([!own.includes(item.id), [], true]);
    path = body.nextCursor === null ? null : `/v1/label-templates?limit=4&cursor=${encodeURIComponent(body.nextCursor)}`;
  }
  expect(ids.slice(0, BUILT_IN_TEMPLATES.length)).toEqual(BUILT_IN_TEMPLATES.map(({ id }) => id));
  expect(ids.slice(BUILT_IN_TEMPLATES.length).sort()).toEqual([...own].sort());
});
