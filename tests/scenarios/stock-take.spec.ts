/** A stock-take of five hundred things by three people while work goes on; the transcript is what a coordinator would read. */
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { type Counted, type Difference, StockTaking } from '../api/support/stock-takes.js';
import { Workbench } from '../api/support/workbench.js';

const ITEMS = 500;
const BATCH = 50;
const HOUR_MS = 3_600_000;

let bench: Workbench;
let taking: StockTaking;
beforeAll(async () => {
  bench = await Workbench.open();
  taking = new StockTaking(bench);
});
afterAll(() => bench.close());

interface Progress { expected: number; seen: number; inPlace: number; movedMeanwhile: number; misplaced: number; missing: number; foreign: number; openDifferences: number }

const progress = (body: Progress) =>
  `expected ${body.expected} = in place ${body.inPlace} + moved meanwhile ${body.movedMeanwhile} + misplaced ${body.misplaced} + missing ${body.missing}; seen ${body.seen}; foreign ${body.foreign}; open ${body.openDifferences}`;

/** Forty on the clean side, twenty in a box there, the others on the dirty side. */
async function storedThings() {
  const things = await taking.shirts(ITEMS);
  const [tag] = (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'container', count: 1, reservedFor: 'stock-take' }).expect(201)).body.tags as string[];
  const box = (await bench.network.post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag, kind: 'box', to: bench.holding('clean') }).expect(201)).body as { id: string };
  const boxed = things.slice(0, 20);
  const clean = things.slice(20, 60);
  for (const { id } of boxed) await bench.pass(id, 'moved', { kind: 'container', id: box.id });
  for (const { id } of clean) await bench.pass(id, 'moved', bench.holding('clean'));
  return { boxed, clean, dirty: things.slice(60) };
}

/** Three people, each with a third of the batches, at the same time; every fourth batch is sent again, as by a device that got no answer. */
async function scanTogether(id: string, scans: Record<string, unknown>[]): Promise<{ counted: number; again: number }> {
  const batches = Array.from({ length: Math.ceil(scans.length / BATCH) }, (_, index) => scans.slice(index * BATCH, (index + 1) * BATCH));
  const verdicts: string[] = [];
  const person = async (mine: number) => {
    for (const [index, batch] of batches.entries()) {
      if (index % 3 !== mine) continue;
      const answers = [await taking.send(id, batch).expect(200), ...(index % 4 === 0 ? [await taking.send(id, batch).expect(200)] : [])];
      verdicts.push(...answers.flatMap(({ body }) => (body.results as { verdict: string }[]).map(({ verdict }) => verdict)));
    }
  };
  await Promise.all([0, 1, 2].map(person));
  expect(new Set(verdicts)).toEqual(new Set(['counted', 'again']));
  return { counted: verdicts.filter((verdict) => verdict === 'counted').length, again: verdicts.filter((verdict) => verdict === 'again').length };
}

test('five misplaced, two missing and one foreign of five hundred are found, worked off and closed', async () => {
  const transcript: string[] = [];
  const say = (line: string) => transcript.push(line);
  const { boxed, clean, dirty } = await storedThings();
  const names = new Map<string, string>();
  const named = (kind: string, things: readonly Counted[]) => things.forEach(({ id }, index) => names.set(id, `${kind} ${index + 1}`));
  const [wrong, lost, worked] = [dirty.slice(0, 5), dirty.slice(5, 7), dirty[7]!];
  named('misplaced', wrong);
  named('missing', lost);
  const started = await taking.start({ siteId: bench.incident.site() }).expect(201);
  const id = started.body.id as string;
  say(`begun for the whole hall: ${progress(started.body)}`);

  // Work goes on: this one goes to the cold side by an ordinary event after it was counted.
  const foreign = await taking.foreignTag();
  const scans = [
    ...boxed.map(({ tag }) => taking.seen(tag, bench.holding('clean'))),
    ...clean.map(({ tag }) => taking.seen(tag, bench.holding('clean'))),
    ...dirty.filter((thing) => !wrong.includes(thing) && !lost.includes(thing)).map(({ tag }) => taking.seen(tag, bench.holding('dirty'))),
    ...wrong.map(({ tag }, index) => taking.seen(tag, bench.holding(index < 3 ? 'clean' : 'quarantine'))),
    taking.seen(foreign, bench.holding('dirty')),
  ];
  await bench.pass(worked.id, 'moved', bench.holding('cold'));
  const { counted, again } = await scanTogether(id, scans);
  say(`three people scanned: ${counted} counted, ${again} sent again`);
  say(progress(await taking.read(id)));

  const found = await taking.differences(id);
  const nameOf = ({ itemId }: Difference) => names.get(itemId ?? '') ?? 'foreign 1';
  const nameOfPlace = (place: { id: string } | null) => ['dirty', 'clean', 'quarantine', 'cold'].find((zone) => bench.incident.holding(zone) === place?.id) ?? '-';
  for (const one of [...found].sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1))) say(`  ${nameOf(one)}: on record ${nameOfPlace(one.recorded)}, seen ${nameOfPlace(one.seenPlace)}. ${one.words}`);

  const refused = await taking.close(id).expect(409);
  say(`closing is refused: ${refused.body.detail}`);
  expect((refused.body.differences as { id: string }[]).map((one) => one.id).sort()).toEqual(found.map((one) => one.id).sort());

  const resolve = async (difference: string, resolution: string, reason: string) => {
    const { body } = await taking.resolve(id, difference, resolution, { reason }).expect(201);
    say(`  ${names.get(difference) ?? 'foreign 1'}: ${resolution} (${reason})${body.eventSeq === null ? '' : `, event ${body.eventSeq} of its record`}`);
  };
  for (const index of [0, 1]) await resolve(wrong[index]!.id, 'move-on-record', 'stood on the clean side');
  for (const index of [2, 3]) await resolve(wrong[index]!.id, 'put-back', 'carried back');
  await resolve(wrong[4]!.id, 'recount', 'the tags of two shirts were held together');
  bench.server.clock.set(bench.server.clock.nowMs() + HOUR_MS / 6);
  await taking.send(id, [taking.seen(wrong[4]!.tag, bench.holding('dirty'))]).expect(200);
  await resolve(lost[0]!.id, 'put-back', 'had fallen behind the table');
  await resolve(lost[1]!.id, 'reported-missing', 'looked for by two people');
  await resolve(found.find(({ kind }) => kind === 'foreign')!.id, 'foreign-to-coordinator', 'came in with a neighbour');

  const closed = await taking.close(id).expect(201);
  say(`closed: ${progress(closed.body)}`);
  if (process.env['WRACKLINE_TRANSCRIPT']) process.stdout.write(`${transcript.join('\n')}\n`);
  expect(transcript).toEqual([
    'begun for the whole hall: expected 500 = in place 0 + moved meanwhile 0 + misplaced 0 + missing 500; seen 0; foreign 0; open 500',
    'three people scanned: 499 counted, 150 sent again',
    'expected 500 = in place 492 + moved meanwhile 1 + misplaced 5 + missing 2; seen 498; foreign 1; open 8',
    '  foreign 1: on record -, seen dirty. Nobody here knows this tag. Read it again; if it is right, give the thing to the coordinator.',
    ...[1, 2, 3].map((index) => `  misplaced ${index}: on record dirty, seen clean. It lies where the record does not have it. Put it back, or put it on record where it is.`),
    ...[4, 5].map((index) => `  misplaced ${index}: on record dirty, seen quarantine. It lies where the record does not have it. Put it back, or put it on record where it is.`),
    ...[1, 2].map((index) => `  missing ${index}: on record dirty, seen -. It should be here and nobody has seen it. Look around it, in the boxes beside it and under the screens, before you report it missing.`),
    'closing is refused: 8 differences are open; nothing was closed. Work off each of them first; what was not counted yet counts as missing.',
    '  misplaced 1: move-on-record (stood on the clean side), event 2 of its record',
    '  misplaced 2: move-on-record (stood on the clean side), event 2 of its record',
    '  misplaced 3: put-back (carried back)',
    '  misplaced 4: put-back (carried back)',
    '  misplaced 5: recount (the tags of two shirts were held together)',
    '  missing 1: put-back (had fallen behind the table)',
    '  missing 2: reported-missing (looked for by two people), event 2 of its record',
    '  foreign 1: foreign-to-coordinator (came in with a neighbour)',
    'closed: expected 500 = in place 496 + moved meanwhile 3 + misplaced 0 + missing 1; seen 499; foreign 1; open 0',
  ]);
  const { body } = await bench.network.get(`/v1/incidents/${bench.incident.id}/reconciliation`).expect(200);
  expect(body).toMatchObject({ difference: 0, chainFaults: [], keepersOtherThanOne: [] });
}, 180_000);

test('another network sees nothing of it', async () => {
  const theirs = await bench.server.network();
  const id = await taking.begin([bench.holding('clean')]);
  const [known, never] = [await theirs.get(`/v1/stock-takes/${id}`), await theirs.get(`/v1/stock-takes/${newId()}`)];
  expect([known.status, known.body.detail]).toEqual([404, never.body.detail]);
});
