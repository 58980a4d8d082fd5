import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { RELEASES, releaseChanges } from '#care';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

interface ChangeShown {
  kind: string;
  ruleId: string;
  why: string;
  before: { text: string; conclusions: string[] } | null;
  after: { text: string; conclusions: string[] } | null;
}

test('every release stands there, newest first, with each rule that it changed, its words before and after, and why', async () => {
  const network = await server.network();
  const { body } = await network.get('/v1/rulebook/releases').expect(200);
  expect(body).toMatchObject({ follows: RELEASES.at(-1), newest: RELEASES.at(-1) });
  expect(body.releases.map(({ release }: { release: string }) => release)).toEqual([...RELEASES].toReversed());
  expect(body.releases.at(-1).changes).toBeNull();
  const [{ changes, rules }] = body.releases;
  const known = releaseChanges('2026.2', '2026.11');
  expect(changes.rules.map(({ ruleId }: ChangeShown) => ruleId)).toEqual(known.rules.map(({ ruleId }) => ruleId));
  expect(rules.total - body.releases[1].rules.total).toBe(changes.rules.filter(({ kind }: ChangeShown) => kind === 'added').length);
  for (const { kind, ruleId, why, before, after } of changes.rules as ChangeShown[]) {
    expect([ruleId, why.length > 20, before === null, after === null]).toEqual([ruleId, true, kind === 'added', kind === 'withdrawn']);
    // Something that a person reads is another: what it says, or what it looks at, which the reason tells.
    for (const words of [...(before?.conclusions ?? []), ...(after?.conclusions ?? [])]) expect([ruleId, /[{}]|undefined|hold-frozen/.test(words)]).toEqual([ruleId, false]);
  }
  // Stuck to the glass, a framed work dries glass side down (Salvage at a Glance chart; drying page, University of Iowa Flood Booklet).
  const framed = changes.rules.find(({ ruleId }: ChangeShown) => ruleId === 'paper.framed.route') as ChangeShown;
  expect(framed.after?.conclusions.length).toBe((framed.before?.conclusions.length ?? 0) + 1);
  expect(changes.sides.map(({ choiceId, optionId }: { choiceId: string; optionId: string }) => `${choiceId}=${optionId}`)).toEqual(['fan-direction=across', 'wrap-bench=dirty-side', 'wrap-bench=at-the-freezer']);
});

test('it says which release this network follows, and nothing of another network', async () => {
  const [old, other] = [await server.network(), await server.network()];
  await server.admin.query("update network set rule_book_release = '2026.2' where network_id = $1", [old.networkId]);
  expect((await old.get('/v1/rulebook/releases').expect(200)).body.follows).toBe('2026.2');
  expect((await other.get('/v1/rulebook/releases').expect(200)).body.follows).toBe(RELEASES.at(-1));
});
