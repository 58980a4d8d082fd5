/** What one household holds (its link, its codes, its file links) opens nothing of another one, on any route. */
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { linkOf, openPage, openQuestions, sendForm, family, type Family, type LinkOnTest } from '../api/support/families.js';
import { FileBench } from '../api/support/files.js';
import { bookFor, type Booked } from '../api/support/hand-back.js';
import { jpeg } from '../api/support/pictures.js';
import type { Workbench } from '../api/support/workbench.js';
import { operationsOf } from './tenant-matrix/document.js';

interface Home {
  household: Family;
  item: { id: string; tag: string };
  question: string;
  link: LinkOnTest;
  booked: Booked;
  fileId: string;
  fileUrl: string;
  /** What only this household may read. */
  secrets: string[];
}

let files: FileBench;
let bench: Workbench;
let mine: Home;
let other: Home;

beforeAll(async () => {
  files = await FileBench.open();
  bench = files.bench;
  mine = await home('Cobija de lana de Ambarina');
  other = await home('Mantel bordado de Celedonia');
});
afterAll(() => files.close());

async function home(words: string): Promise<Home> {
  const household = await family(bench.network, bench.incident, { language: 'es' });
  const item = await bench.takeIn(household, { description: words });
  const [question] = await openQuestions(bench.network, bench.incident, household.id);
  const { body: sent } = await bench.network.post(`/v1/households/${household.id}/files?itemId=${item.id}`, await jpeg(), { 'content-type': 'image/jpeg' }).expect(201);
  await files.work();
  const [link, booked] = [await linkOf(bench.network, household), await bookFor(bench, household.id)];
  const id = sent.id as string;
  return { household, item, question: question?.id ?? '', link, booked, fileId: id, fileUrl: await files.link(id), secrets: [household.name, household.id, household.code, item.id, item.tag, words, question?.id ?? words, id, booked.id] };
}

const recordOf = async ({ household, item }: Home) => (await bench.server.admin.query(
  `select (select json_agg(c order by id) from consent c where household_id = $1) as consents, (select json_agg(q order by id) from owner_question q where household_id = $1) as questions,
     (select row_to_json(i) from item i where id = $2) as item, (select json_agg(a order by id) from hand_back_appointment a where household_id = $1) as appointments, (select json_agg(l order by id) from status_link l where household_id = $1) as links`, [household.id, item.id])).rows[0];

const takesBody = (method: string): boolean => !/get|head|delete|options/i.test(method);

test('no secret of a household is a key to any route of the API', async () => {
  const keys = [mine.link.path.split('/')[2] ?? '', mine.link.pickUpCode, mine.booked.code, mine.fileUrl.split('/').at(-1)?.split('?')[0] ?? ''];
  const ids: Record<string, string> = { householdId: other.household.id, itemId: other.item.id, ownerQuestionId: other.question, fileId: other.fileId, statusLinkId: other.link.id, incidentId: bench.incident.id };
  const before = await recordOf(other);
  const found: string[] = [];
  let asked = 0;
  const operations = operationsOf(bench.server).filter(({ path }) => path.startsWith('/v1/'));
  for (const { method, path, id } of operations) {
    const url = `${bench.server.url}${path.replaceAll(/\{(\w+)\}/g, (_, name: string) => ids[name] ?? other.item.id)}`;
    for (const key of keys) {
      const answer = await fetch(url, { method: method.toUpperCase(), headers: { authorization: `Bearer ${key}`, ...(takesBody(method) && { 'content-type': 'application/json' }) }, ...(takesBody(method) && { body: '{}' }) });
      const text = await answer.text();
      asked += 1;
      if (answer.status !== 401 || other.secrets.some((secret) => text.includes(secret))) found.push(`${id}: ${answer.status}`);
    }
  }
  process.stdout.write(`secrets of another household as keys: ${operations.length} routes, ${asked} requests: ${found.length} answered\n`);
  expect(found).toEqual([]);
  expect(await recordOf(other)).toEqual(before);
});

test("the link of one household shows nothing of another's, and no form of it reaches another's question, thing or code", async () => {
  const before = await recordOf(other);
  const { path } = mine.link;
  const answers = [
    await openPage(bench.server, path).expect(200),
    await sendForm(bench.server, `${path}/more?lang=es`, { code: mine.link.pickUpCode }).expect(200),
    await sendForm(bench.server, `${path}/more?lang=es`, { code: other.link.pickUpCode }).expect(200),
    ...(await Promise.all(['yes', 'no', 'call-me'].map((answer) => sendForm(bench.server, `${path}/answers?lang=es`, { question: other.question, answer })))),
    await sendForm(bench.server, `${path}/answers?lang=es`, { question: other.question, answer: 'yes', code: mine.link.pickUpCode }),
    ...(await Promise.all(['treat', 'freeze', 'refer', 'photograph'].map((scope) => sendForm(bench.server, `${path}/words?lang=es`, { item: other.item.id, scope })))),
    await openPage(bench.server, path, `?lang=es&household=${other.household.id}&item=${other.item.id}`),
  ];
  // The words of one's own thing are shown for one's own code alone.
  expect(answers[1]?.text).toContain('Ambarina');
  expect(answers[2]?.text).not.toContain('Ambarina');
  expect(answers.slice(3, -1).map(({ status }) => status)).toEqual(Array.from({ length: 8 }, () => 404));
  for (const { text, headers } of answers) for (const secret of other.secrets) expect(`${text}${JSON.stringify(headers)}`).not.toContain(secret);
  expect(await recordOf(other)).toEqual(before);
});

test("a file link opens one file, and not another household's by any change of it", async () => {
  const [from, to] = [mine.fileUrl, other.fileUrl];
  expect((await files.fetched(from)).status).toBe(200);
  const [ours, theirs] = [from.split('/').at(-1) ?? '', to.split('/').at(-1) ?? ''];
  const parts = (token: string) => token.split(/(?=[.?&=])/);
  const mixed = [...parts(ours).keys()].map((at) => parts(ours).map((part, index) => (index === at ? (parts(theirs)[at] ?? part) : part)).join('')).filter((token) => token !== ours && token !== theirs);
  const tried = [...mixed, other.fileId, ours.replace(mine.fileId, other.fileId), `${ours}x`].filter((token) => token !== ours);
  for (const token of tried) expect((await files.fetched(`/files/${token}`)).status).toBe(404);
});

test("codes of one household hand back nothing of another's", async () => {
  const before = await recordOf(other);
  const withCode = (booked: Booked, code: string) => bench.handBack(other.household, [other.item.id], { signatureRef: '', identityCheck: 'pickup-code', appointmentId: booked.id, code });
  for (const answer of [await withCode(mine.booked, mine.booked.code), await withCode(other.booked, mine.booked.code), await withCode(other.booked, mine.link.pickUpCode)]) expect(answer.status).toBe(422);
  const after = await recordOf(other);
  expect(after.item).toEqual(before.item);
  expect(after.consents).toEqual(before.consents);
});
