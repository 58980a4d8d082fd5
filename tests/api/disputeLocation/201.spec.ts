import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { mattersOf } from '../support/matters.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let matters: ReturnType<typeof mattersOf>;
beforeAll(async () => {
  bench = await Workbench.open();
  matters = mattersOf(bench);
});
afterAll(() => bench.close());
test('a claim is kept with its words beside the chain, moves nothing, and stops every move until a person has looked', async () => {
  const quilt = await matters.quilt();
  const { body, headers } = await matters.dispute(quilt.id, bench.holding('clean'), { seenAt: '2026-05-09T06:58:00Z', note: 'Lies on top of the sewing machine.' }).expect(201);
  expect(body.item).toMatchObject({ keeper: quilt.keeper, stage: 'waiting', locationDisputed: true, missing: false, custodySeq: 2 });
  expect(body.event).toMatchObject({ kind: 'location-disputed', seq: 2, from: quilt.keeper, to: quilt.keeper, occurredAt: '2026-05-09T06:58:00.000Z', refs: { claimedKind: 'holding', claimedId: bench.incident.holding('clean'), personId: bench.incident.person('P2') } });
  expect(headers['etag']).toBe(`"${body.item.version}"`);
  expect(JSON.stringify(await matters.chain(quilt.id))).not.toContain('sewing machine');
  expect((await bench.server.admin.query('select verdict, note, at_seq from sighting where item_id = $1', [quilt.id])).rows).toEqual([{ verdict: 'claims-elsewhere', note: 'Lies on top of the sewing machine.', at_seq: 1 }]);
  const moved = await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'moved', from: quilt.keeper, to: bench.holding('clean') }).expect(409);
  expect(moved.body).toMatchObject({ code: 'location_disputed', detail: expect.stringContaining('location-settled') });
  expect(await bench.read(quilt.id)).toEqual(body.item);
});

test('the tag of a container names the place, and a second claim adds to the first', async () => {
  const quilt = await matters.quilt();
  const [tag] = (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'container', count: 1, reservedFor: 'Team' }).expect(201)).body.tags;
  const { body: tub } = await bench.network.post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag, kind: 'tub', description: 'Blue tub' }).expect(201);
  const first = await bench.network.post(`/v1/items/${quilt.id}/location-disputes`, { placeTag: ` ${String(tag).toLowerCase()} ` }).expect(201);
  expect(first.body.event.refs).toEqual({ claimedKind: 'container', claimedId: tub.id });
  const second = await matters.dispute(quilt.id, bench.freezer()).expect(201);
  expect(second.body.item).toMatchObject({ keeper: quilt.keeper, locationDisputed: true, custodySeq: 3 });
  await matters.verified();
});
