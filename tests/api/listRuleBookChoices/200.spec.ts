import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('every decision stays on record, newest first, numbered without gaps, page by page; nobody can change one', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const sides = ['none', 'everyday-only', 'none'];
  for (const [number, side] of sides.entries()) {
    await network.post('/v1/rulebook/choices', { choices: { sunlight: side }, reason: `Turn ${number + 1}.`, personId: incident.person('P1') }, { 'if-match': `"${number}"` }).expect(201);
  }
  const first = await network.get('/v1/rulebook/choices?limit=2').expect(200);
  const second = await network.get(`/v1/rulebook/choices?limit=2&cursor=${encodeURIComponent(first.body.nextCursor)}`).expect(200);
  expect([...first.body.items, ...second.body.items].map(({ number, reason }: { number: number; reason: string }) => [number, reason])).toEqual([[3, 'Turn 3.'], [2, 'Turn 2.'], [1, 'Turn 1.']]);
  expect(second.body.nextCursor).toBeNull();
  await expect(server.admin.query('update rule_book_choice set reason = $2 where network_id = $1', [network.networkId, 'Another reason.'])).rejects.toThrow('append-only');
  await expect(server.admin.query('delete from rule_book_choice where network_id = $1', [network.networkId])).rejects.toThrow('append-only');
});
