/** Sixty things taken in on paper during a power cut, keyed in ten hours later, and held against the printed slips. */
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../api/support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const CUT_MS = Date.parse('2026-05-09T08:00:00Z');
const KEYED_AT = '2026-05-09T20:00:00.000Z';
const THINGS = [['Wedding quilt', 'double-quilt', 'textile-quilt-padded'], ['Letters in a tin', 'a4-sheet', 'paper-uncoated'], ['Photograph album', 'book', 'album-or-scrapbook'], ['Shirt', 'garment', 'textile-garment-3d']] as const;

/** Slip `n`, written three minutes after the one before, now for one of twelve families and now for another. */
function slipOf(n: number): object {
  const [description, sizeClass, materialClass] = THINGS[n % THINGS.length] as (typeof THINGS)[number];
  return {
    slipNo: n, writtenAt: new Date(CUT_MS + n * 180_000).toISOString(), description: `${description} ${n}`, sizeClass, materialClass, significance: n % 5 === 0 ? 'irreplaceable' : 'valued', count: sizeClass === 'a4-sheet' ? 40 : 1,
    household: { code: `PAPER-${n % 12}`, language: n % 2 === 0 ? 'es' : 'en', contact: { name: `Family on slip ${n % 12}`, phone: '555 0100' } }, consents: [{ scope: 'treat', given: true }],
  };
}

interface Verdict {
  slipNo: number;
  verdict: string;
  itemId: string | null;
  tag: string | null;
}

test('60 slips of 65: late times stay what they are, each marked as keyed from paper and by whom, missing and void slips named, nothing twice', async () => {
  const kit = (await bench.network.post(`/v1/sites/${bench.incident.site()}/paper-kits`, { slips: 65 }).expect(201)).body as { id: string; tags: string[] };
  bench.server.clock.set(Date.parse(KEYED_AT));
  const person = bench.incident.person('P2');
  const numbers = Array.from({ length: 60 }, (_, index) => index + 1);
  // Keyed in the order in which the pile lay, which is none.
  const pile = numbers.toSorted((a, b) => ((a * 37) % 61) - ((b * 37) % 61));
  const body = { personId: person, slips: [...pile.map(slipOf), { slipNo: 61, void: 'spoilt' }, { slipNo: 62, void: 'unused' }] };
  const sent = { 'idempotency-key': newId() };
  const began = performance.now();
  const { results } = (await bench.network.post(`/v1/paper-kits/${kit.id}/keyed-slips`, body, sent).expect(200)).body as { results: Verdict[] };
  process.stdout.write(`60 slips keyed in ${Math.round(performance.now() - began)} ms\n`);
  expect(results.map(({ slipNo }) => slipNo)).toEqual([...pile, 61, 62]);
  expect(results.filter(({ verdict }) => verdict === 'keyed')).toHaveLength(60);
  expect(results.slice(60).map(({ verdict }) => verdict)).toEqual(['void', 'void']);
  for (const { slipNo, tag } of results) expect(tag).toBe(kit.tags[slipNo - 1]);

  // The answer got lost on the way: the same request again, and then the pile again under another key.
  expect((await bench.network.post(`/v1/paper-kits/${kit.id}/keyed-slips`, body, sent).expect(200)).body.results).toEqual(results);
  const again = (await bench.network.post(`/v1/paper-kits/${kit.id}/keyed-slips`, body).expect(200)).body.results as Verdict[];
  expect(again.map(({ verdict, itemId }) => [verdict, itemId])).toEqual(results.map(({ itemId }) => ['keyed-before', itemId]));
  const { rows } = await bench.server.admin.query<{ items: number; households: number; late: number }>(
    `select (select count(*)::int from item where incident_id = $1) as items, (select count(*)::int from household where incident_id = $1) as households,
            (select count(*)::int from custody_event where incident_id = $1 and kind = 'taken-in' and recorded_at = $2 and occurred_at < $2) as late`,
    [bench.incident.id, KEYED_AT],
  );
  expect(rows[0]).toEqual({ items: 60, households: 12, late: 60 });

  for (const { slipNo, itemId } of results.slice(0, 60)) {
    const { items } = (await bench.network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body;
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ kind: 'taken-in', occurredAt: new Date(CUT_MS + slipNo * 180_000).toISOString(), recordedAt: KEYED_AT, refs: { paperKitId: kit.id, slipNo: String(slipNo), keyedBy: person } });
    expect(JSON.stringify(items)).not.toContain('Family on slip');
  }

  const view = (await bench.network.get(`/v1/paper-kits/${kit.id}`).expect(200)).body;
  expect(view.counts).toEqual({ keyed: 60, void: 2, missing: 3 });
  expect(view.list.filter(({ state }: { state: string }) => state === 'missing').map(({ slipNo }: { slipNo: number }) => slipNo)).toEqual([63, 64, 65]);
  expect(view.list[0]).toMatchObject({ slipNo: 1, state: 'keyed', writtenAt: '2026-05-09T08:03:00.000Z', keyedAt: KEYED_AT, keyedBy: person });
  const account = (await bench.network.get(`/v1/incidents/${bench.incident.id}/reconciliation`).expect(200)).body;
  expect(account).toMatchObject({ received: 60, difference: 0, keepersOtherThanOne: [], chainFaults: [] });
}, 120_000);
