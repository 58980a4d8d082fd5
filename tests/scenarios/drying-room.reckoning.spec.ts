/** How a room is reckoned: in parts as in one, at the price of its share, and whoever has read less never overwrites. */
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { loadRoom, reckonRoom, runClimate, type OutboxMessage, type UnitOfWork } from '#application';
import { newId } from '#platform';
import { networkDigest } from '#testing';
import { alarmsOf, readRoom, reckonAir } from '../api/support/air.js';
import { Workbench } from '../api/support/workbench.js';
import { workerContextOf } from '../unit/plan-problem/support/runs.js';

let bench: Workbench;
let quilts: string[];

beforeAll(async () => {
  bench = await Workbench.open();
  const household = await bench.household();
  quilts = [];
  for (let i = 0; i < 3; i += 1) {
    const { id } = await bench.testedQuilt(household, i === 2 ? { sizeClass: 'garment', materialClass: 'textile-garment-3d' } : {});
    for (const step of ['rinse', 'blot']) await bench.report(id, step).expect(201);
    quilts.push(id);
  }
});
afterAll(() => bench.close());

const at = (moment: string) => bench.server.clock.set(Date.parse(moment));
const room = () => bench.incident.room('ROOM');
const context = () => workerContextOf(bench.network);
const env = () => ({ nowMs: bench.server.clock.nowMs(), newId: () => newId() });

/** What is stored of the room and its things. */
async function stored(): Promise<Record<string, unknown>> {
  const { rows } = await bench.server.admin.query(
    `select (select jsonb_build_object('standing', standing, 'forecast', forecast, 'basis', basis) from room_course where drying_room_id = $1) as room,
            (select jsonb_agg(jsonb_build_object('item', item_id, 'x', moisture_x, 'dose', dose, 'detail', detail, 'hung', hung_at, 'taken', taken_at) order by item_id) from item_climate where drying_room_id = $1) as items`, [room()]);
  return rows[0] as Record<string, unknown>;
}

/** Equal, numbers to 1e-9 of their size. */
function expectAlike(a: unknown, b: unknown, path = ''): void {
  if (typeof a === 'number' && typeof b === 'number') {
    if (Math.abs(a - b) > 1e-9 * Math.max(1, Math.abs(a))) throw new Error(`${path}: ${a} and ${b}`);
    return;
  }
  if (typeof a === 'object' && typeof b === 'object' && a !== null && b !== null) {
    expect(Object.keys(b).sort()).toEqual(Object.keys(a).sort());
    for (const [name, value] of Object.entries(a)) expectAlike(value, (b as Record<string, unknown>)[name], `${path}.${name}`);
    return;
  }
  if (a !== b) throw new Error(`${path}: ${String(a)} and ${String(b)}`);
}

/** On what the speed rests that a thing dries with; null once it was taken down, undefined before the first reckoning. */
async function speedOf(itemId: string): Promise<{ basis: string; weighings: number } | null | undefined> {
  return (await bench.network.get(`/v1/items/${itemId}/climate`).expect(200)).body.standing?.speed;
}

/** How much of the past a reckoning goes through, without storing it. */
async function cost(): Promise<{ cuts: number; fromMs: number | null }> {
  const loaded = await bench.server.unitOfWork.read(context(), (stores) => loadRoom(stores, room(), env().nowMs));
  return { cuts: reckonRoom(loaded!, env().nowMs)!.cuts, fromMs: loaded!.from?.mark.atMs ?? null };
}

async function waitingRow(): Promise<OutboxMessage> {
  const { rows } = await bench.server.admin.query<{ id: string; incident_id: string; subject_id: string }>("select id, incident_id, subject_id from outbox where kind = 'climate.readings' and done_at is null and subject_id = $1", [room()]);
  expect(rows).toHaveLength(1);
  return { id: rows[0]!.id, incidentId: rows[0]!.incident_id, kind: 'climate.readings', subjectId: rows[0]!.subject_id, traceparent: '' };
}

/** The garment on the rack, dried at about two thirds of the speed that is assumed: by the quarter of the day. */
const GARMENT_KG = new Map([[13, 1.3], [18, 1.25], [24, 1.19], [29, 1.14]]);
const weigh = (itemId: string, scaleKg: number, weighedAt: string, resolutionKg: number) => bench.network.post(`/v1/items/${itemId}/weighings`, { scaleKg, resolutionKg, weighedAt, personId: bench.incident.person('P1') }).expect(201);

test('a day reckoned reading by reading, with a late one and weighings between that refit the speed, is the day reckoned at once, to 1e-9', async () => {
  const fittedAt: number[] = [];
  for (let quarter = 0; quarter < 48; quarter += 1) {
    const moment = new Date(Date.parse('2026-05-09T07:15:00Z') + quarter * 900_000).toISOString();
    at(moment);
    if (quarter === 2) await bench.hang(quilts[0]!);
    if (quarter === 9) await bench.hang(quilts[1]!);
    if (quarter === 12) await bench.hang(quilts[2]!);
    if (quarter === 20) await weigh(quilts[0]!, 3.4, moment, 0.01);
    if (GARMENT_KG.has(quarter)) await weigh(quilts[2]!, GARMENT_KG.get(quarter)!, moment, 0.005);
    if (quarter === 30) await bench.pass(quilts[1]!, 'drying-ended', bench.holding('clean'));
    if (quarter !== 15) await readRoom(bench.network, bench.incident, moment, 55 + (quarter % 9));
    // The slip from quarter 15 is keyed in five hours late.
    if (quarter === 35) await readRoom(bench.network, bench.incident, '2026-05-09T11:00:00Z', 71, 22);
    if (quarter % 3 !== 0 && quarter !== 47) continue;
    await reckonAir(bench.server, bench.network);
    if ((await speedOf(quilts[2]!))?.basis === 'fitted') fittedAt.push(quarter);
  }
  const inParts = await stored();
  await bench.server.admin.query('delete from room_checkpoint; delete from item_climate; update room_course set standing = null, forecast = null');
  expect(await reckonAir(bench.server, bench.network, 'climate.tick')).toEqual(['stored']);
  const atOnce = await stored();
  expect((atOnce['items'] as unknown[]).length).toBe(3);
  expectAlike(inParts, atOnce);
  // Reckoned with the general factor until it had been weighed often enough, and from then on with the fitted one.
  expect(fittedAt[0]).toBeGreaterThanOrEqual(18);
  expect(fittedAt.at(-1)).toBe(47);
  expect(await speedOf(quilts[2]!)).toEqual({ basis: 'fitted', weighings: 4 });
  expect(await speedOf(quilts[0]!)).toEqual({ basis: 'general', weighings: 0 });
  expect(await speedOf(quilts[1]!)).toBeNull();
});

test('a weighing that moves the factor has the past reckoned anew from before the thing was hung', async () => {
  at('2026-05-09T19:05:00Z');
  expect((await cost()).fromMs).toBe(Date.parse('2026-05-09T19:00:00Z'));
  const before = await bench.network.get(`/v1/drying-rooms/${room()}/fits`).expect(200);
  await weigh(quilts[2]!, 1.06, '2026-05-09T14:45:00Z', 0.005);
  const after = await bench.network.get(`/v1/drying-rooms/${room()}/fits`).expect(200);
  const factor = ({ body }: typeof before) => (body.fits as { build: string; appliedFactor: number }[]).find(({ build }) => build === 'thin')!.appliedFactor;
  expect(factor(after)).not.toBe(factor(before));
  const { fromMs } = await cost();
  // Back to before the garment was hung.
  expect(fromMs === null || fromMs < Date.parse('2026-05-09T10:15:00Z')).toBe(true);
  await reckonAir(bench.server, bench.network);
  expect((await cost()).fromMs).toBe(Date.parse('2026-05-09T19:00:00Z'));
});

test('a new reading costs its own share; a late one goes back to the checkpoint before it and no further', async () => {
  at('2026-05-09T19:30:00Z');
  await readRoom(bench.network, bench.incident, '2026-05-09T19:20:00Z', 58);
  const newest = await cost();
  expect(newest.fromMs).toBe(Date.parse('2026-05-09T19:00:00Z'));
  expect(newest.cuts).toBeLessThanOrEqual(3);
  await reckonAir(bench.server, bench.network);
  await readRoom(bench.network, bench.incident, '2026-05-09T15:07:00Z', 66);
  const late = await cost();
  expect(late.fromMs).not.toBeNull();
  expect(late.fromMs).toBeLessThan(Date.parse('2026-05-09T15:07:00Z'));
  expect(late.cuts).toBeGreaterThan(newest.cuts);
  await reckonAir(bench.server, bench.network);
  const { rows } = await bench.server.admin.query<{ n: number }>('select count(*)::int as n from room_checkpoint where drying_room_id = $1', [room()]);
  expect(rows[0]!.n).toBeGreaterThan(3);
  expect(rows[0]!.n).toBeLessThan(12);
});

describe('two at once', () => {
  /** Stops before its last write until it is let go on. */
  function heldBeforeStoring(): { work: UnitOfWork; reached: Promise<void>; goOn: () => void } {
    let goOn = () => undefined as void;
    let reach = () => undefined as void;
    const gate = new Promise<void>((resolve) => { goOn = resolve; });
    const reached = new Promise<void>((resolve) => { reach = resolve; });
    let writes = 0;
    const { unitOfWork } = bench.server;
    const work: UnitOfWork = {
      read: (about, inside) => unitOfWork.read(about, inside),
      command: (about, identity, inside) => unitOfWork.command(about, identity, inside),
      async write(about, inside) {
        writes += 1;
        if (writes === 2) {
          reach();
          await gate;
        }
        return unitOfWork.write(about, inside);
      },
    };
    return { work, reached, goOn };
  }

  test('who read earlier does not overwrite what a later one stored', async () => {
    at('2026-05-09T20:00:00Z');
    await readRoom(bench.network, bench.incident, '2026-05-09T19:50:00Z', 57);
    const early = await waitingRow();
    const held = heldBeforeStoring();
    const first = runClimate(held.work, early, context(), env());
    await held.reached;
    // The relay counts the run that has begun, so that what comes now rings anew.
    await bench.server.admin.query('update outbox set tries = 1 where id = $1', [early.id]);
    await readRoom(bench.network, bench.incident, '2026-05-09T19:58:00Z', 77);
    const { rows } = await bench.server.admin.query<{ id: string }>("select id from outbox where kind = 'climate.readings' and done_at is null and tries = 0");
    expect(rows).toHaveLength(1);
    expect(await runClimate(bench.server.unitOfWork, { ...early, id: rows[0]!.id }, context(), env())).toBe('stored');
    const later = await stored();
    held.goOn();
    expect(await first).toBe('overtaken');
    expect(await stored()).toEqual(later);
    expect(await alarmsOf(bench.network, bench.incident, '?kind=room-over-cap')).toMatchObject([{ numbers: { relativeHumidityPct: 77 } }]);
  });

  test('one row done twice stores once and raises once', async () => {
    at('2026-05-09T20:30:00Z');
    await readRoom(bench.network, bench.incident, '2026-05-09T20:20:00Z', 85);
    const message = await waitingRow();
    const outcomes = await Promise.all([1, 2, 3].map(() => runClimate(bench.server.unitOfWork, message, context(), env())));
    expect(outcomes.toSorted()).toEqual(['overtaken', 'overtaken', 'stored']);
    const kinds = (await alarmsOf(bench.network, bench.incident)).map(({ kind }) => kind);
    expect(kinds).toContain('room-mould-possible');
    expect(new Set(kinds).size).toBe(kinds.length);
  });

  test('a room that is looked at again and again has one look ahead, and it takes no share of what is out', async () => {
    const { rows } = await bench.server.admin.query<{ n: number; far: boolean; out: number }>(
      `select count(*)::int as n, bool_and(not_before > clock_timestamp() + interval '5 minutes') as far, count(*) filter (where leased_until is not null)::int as out from outbox where kind = 'climate.tick' and done_at is null and subject_id = $1`, [room()]);
    expect(rows).toEqual([{ n: 1, far: true, out: 0 }]);
  });
});

test('a row that is carried out for another network finds no room, and writes nothing on either side', async () => {
  at('2026-05-09T21:00:00Z');
  await readRoom(bench.network, bench.incident, '2026-05-09T20:55:00Z', 60);
  const message = await waitingRow();
  const theirs = await bench.server.network();
  const [ours, others] = [await networkDigest(bench.server.admin, bench.network.networkId), await networkDigest(bench.server.admin, theirs.networkId)];
  expect(await runClimate(bench.server.unitOfWork, message, workerContextOf(theirs), env())).toBe('nothing-to-reckon');
  expect(await networkDigest(bench.server.admin, bench.network.networkId)).toEqual(ours);
  expect(await networkDigest(bench.server.admin, theirs.networkId)).toEqual(others);
  expect(await reckonAir(bench.server, bench.network)).toEqual(['stored']);
});
