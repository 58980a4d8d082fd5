/**
 * One family's whole story, in Spanish. With WRACKLINE_STORY=<folder> it also writes down what was said (`story.md`), the papers, and pictures of the
 * page in a real browser (Debian's chromium-driver), for somebody to look at.
 */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { wordsOf } from '../unit/documents/pictures.support.js';
import { family, lookAtFamilies, linkOf, openQuestions, type Family, type LinkOnTest } from '../api/support/families.js';
import { FileBench } from '../api/support/files.js';
import { DAY_MS, bookFor } from '../api/support/hand-back.js';
import { jpegWithPlace } from '../api/support/pictures.js';
import type { Workbench } from '../api/support/workbench.js';
import { BrowserPhone, formsAlone, type Phone } from './family-story.phone.js';

const FOLDER = process.env['WRACKLINE_STORY'] ?? '';
const HOUR_MS = 3_600_000;
const QUILT_WORDS = 'Colcha de novia de la abuela';
const LETTER_WORDS = 'Cartas atadas con cinta azul';

let files: FileBench;
let bench: Workbench;
let phone: Phone;
let home: Family;
let link: LinkOnTest;
let quilt: { id: string; tag: string };
let letters: { id: string; tag: string };
let photographs: { id: string; tag: string };
const told: string[] = [];

beforeAll(async () => {
  if (FOLDER !== '') await mkdir(FOLDER, { recursive: true });
  files = await FileBench.open();
  bench = files.bench;
  phone = FOLDER === '' ? formsAlone(bench.server) : await BrowserPhone.start(bench.server, FOLDER);
});
afterAll(async () => {
  await phone.close();
  if (FOLDER !== '') await writeFile(join(FOLDER, 'story.md'), `${told.join('\n\n')}\n`);
  await files.close();
});

/** Notes an answer of the API for the reader of the story. */
function note(what: string, answer: object): void {
  told.push(`## ${what}\n\n\`\`\`json\n${JSON.stringify(answer, null, 2).slice(0, 3_000)}\n\`\`\``);
}

function page(what: string, text: string): void {
  told.push(`## ${what}\n\n${text.replaceAll(/<style>.*?<\/style>/gs, '').replaceAll(/<[^>]+>/g, ' ').replaceAll(/[ \t]{2,}/g, ' ').trim().split('\n').map((line) => `> ${line}`).join('\n')}`);
}

async function paper(name: string, path: string): Promise<string> {
  const { body, headers } = await bench.network.get(path).expect(200);
  expect(headers['content-type']).toBe('application/pdf');
  if (FOLDER !== '') await writeFile(join(FOLDER, `${name}.pdf`), body as Buffer);
  return (await wordsOf(body as Buffer)).join('\n').replaceAll(/\s+/g, ' ');
}

const later = (ms: number) => bench.server.clock.set(bench.server.clock.nowMs() + ms);
const openOf = async (itemId: string, kind: string) => (await openQuestions(bench.network, bench.incident, home.id)).find((question) => question.itemId === itemId && question.kind === kind && question.state === 'open');

test('1. things come in with what the family agrees to, and a photograph loses where it was taken', async () => {
  home = await family(bench.network, bench.incident, { language: 'es', email: 'hogar@families.example', consents: [{ scope: 'photograph', given: true, manner: 'spoken' }] });
  quilt = await bench.takeIn(home, { description: QUILT_WORDS });
  letters = await bench.takeIn(home, { description: LETTER_WORDS, materialClass: 'paper-uncoated', sizeClass: 'a4-sheet' });
  photographs = await bench.takeIn(home, { description: 'Álbum de la boda', materialClass: 'paper-uncoated', sizeClass: 'a4-sheet' });
  note('Taken in', await bench.read(quilt.id));
  const { body } = await bench.network.post(`/v1/households/${home.id}/files?itemId=${quilt.id}`, await jpegWithPlace(), { 'content-type': 'image/jpeg' }).expect(201);
  await files.work();
  const kept = await files.read(body.id as string);
  note('A photograph at intake', kept);
  expect(kept.state).toBe('kept');
  expect(kept.removed.map(({ code }) => code)).toContain('location');
});

test('2. the family opens its link on a small phone, agrees to one treatment and refuses another', async () => {
  await bench.assess(quilt.id).expect(201);
  await lookAtFamilies(bench.server, bench.network.networkId);
  link = await linkOf(bench.network, home);
  const [mayTreat, mayTreatLetters] = [await openOf(quilt.id, 'treat'), await openOf(letters.id, 'treat')];
  if (!mayTreat || !mayTreatLetters) throw new Error(`the service did not ask what it must ask: ${JSON.stringify(await openQuestions(bench.network, bench.incident, home.id))}`);
  const first = await phone.open(link.path);
  await phone.picture('1-page-with-questions');
  page('What the page asks', first);
  expect(first).toContain('Sus cosas');
  expect(first).not.toMatch(/Contact|novia|cinta azul/);
  const thanked = await phone.answer(link.path, mayTreat.id, 'yes');
  await phone.picture('2-thanked');
  expect(thanked).toContain('Gracias');
  page('After “Sí” for the quilt and “No” for the letters', await phone.answer(link.path, mayTreatLetters.id, 'no'));
  await phone.picture('3-refused');
  expect((await openQuestions(bench.network, bench.incident, home.id)).filter(({ state }) => state === 'answered').map(({ itemId, answer }) => [itemId, answer]).sort()).toEqual([[quilt.id, 'yes'], [letters.id, 'no']].sort());
});

test('3. the refused treatment is not begun; the family is asked whether its letters may be frozen instead', async () => {
  const begun = { kind: 'drying-started', from: bench.holding('dirty'), to: { kind: 'drying-place', id: bench.incident.place('R1') }, reason: 'There is room on the rack now.', personId: bench.incident.person('P1') };
  const refused = await bench.network.post(`/v1/items/${letters.id}/custody-events`, begun).expect(409);
  note('Hanging up what the family said no to', refused.body as object);
  expect(refused.body.code).toBe('consent_missing');
  expect(await bench.read(letters.id)).toMatchObject({ disposition: 'hold-frozen', waitingForOwner: true, stage: 'waiting' });
  const mayFreeze = await openOf(letters.id, 'freeze');
  if (!mayFreeze) throw new Error('the service did not ask for the next way');
  page('The page asks for another way', await phone.open(link.path));
  await phone.picture('4-another-way-asked');
  await phone.answer(link.path, mayFreeze.id, 'yes');
  await bench.report(letters.id, 'stabilise').expect(201);
  await bench.pass(letters.id, 'frozen', bench.freezer());
  expect(await bench.read(letters.id)).toMatchObject({ stage: 'held-frozen', waitingForOwner: false });
});

test('4. the dye moves: a specialist makes an offer above the limit, the family is asked and agrees with its code', async () => {
  await bench.colourTest(quilt.id, 'any-transfer', false).expect(201);
  const said = await bench.network.post(`/v1/households/${home.id}/consents`, { scope: 'refer', given: true, manner: 'spoken', itemId: quilt.id, limit: { minor: 20_000, currency: 'USD' } }).expect(201);
  note('Said at the desk: a specialist, up to 200 dollars', said.body as object);
  const offer = (await bench.network.post(`/v1/items/${quilt.id}/referral-quotes`, { specialistId: bench.incident.specialist('SP1'), amount: { minor: 26_000, currency: 'USD' }, validUntil: '2026-06-30T00:00:00Z', work: 'Limpieza húmeda con control del tinte' }).expect(201)).body;
  const above = await bench.network.post(`/v1/referral-quotes/${offer.id}/decisions`, { decision: 'approve' }).expect(409);
  note('An offer above the limit that the family named', above.body as object);
  expect(above.body.code).toBe('consent_missing');
  const { body: asked } = await bench.network.post(`/v1/items/${quilt.id}/questions`, { kind: 'refer', amount: { minor: 26_000, currency: 'USD' } }).expect(201);
  await phone.open(link.path);
  await phone.picture('5-cost-asked');
  expect(await phone.answer(link.path, asked.id, 'yes', link.pickUpCode)).toContain('Gracias');
  await phone.picture('6-cost-agreed');
  const approved = await bench.network.post(`/v1/referral-quotes/${offer.id}/decisions`, { decision: 'approve' }).expect(200);
  note('After the family said yes on its page', approved.body as object);
  expect(approved.body).toMatchObject({ state: 'approved', basis: 'owner-asked' });
  const words = await paper('referral-package', `/v1/items/${quilt.id}/referral-package/paper?language=es`);
  expect(words).not.toContain(home.name);
  note('Out', (await bench.network.post(`/v1/items/${quilt.id}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'El tinte rojo se mueve.', quoteId: offer.id }).expect(201)).body as object);
  page('What the family reads meanwhile', await phone.open(link.path));
  await phone.picture('7-away');
  later(6 * DAY_MS);
  note('Back', (await bench.network.post(`/v1/items/${quilt.id}/referral-returns`, { to: bench.holding('clean') }).expect(201)).body as object);
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'waiting', nextStep: 'assess' });
});

test('5. a part goes back, with a signature; receipt and care sheet are in Spanish and say what was not done', async () => {
  later(HOUR_MS);
  const booked = await bookFor(bench, home.id);
  const items = [{ itemId: quilt.id, conditionNote: 'Limpia y seca. Una mancha roja queda en el borde.' }];
  const handed = (await bench.handBack(home, [], { items, appointmentId: booked.id, signatureRef: '', signature: [[10, 300, 120, 80, 180, 320], [400, 200, 420, 260]], reservations: 'Falta la cinta azul.', personId: bench.incident.person('P1') }).expect(201)).body;
  note('Handed back', handed as object);
  expect(handed).toMatchObject({ signed: true, reserved: true });
  expect(await bench.read(photographs.id)).toMatchObject({ stage: 'waiting' });
  expect(await bench.read(letters.id)).toMatchObject({ stage: 'held-frozen' });
  const receipt = await paper('receipt', `/v1/hand-backs/${handed.id}/receipt-paper`);
  for (const said of ['Recibo de objetos devueltos', QUILT_WORDS, 'Falta la cinta azul.', 'No se promete nada', 'borde']) expect(receipt).toContain(said);
  expect(receipt).not.toContain(LETTER_WORDS);
  expect(await paper('care-sheet', `/v1/hand-backs/${handed.id}/care-sheet`)).toContain('En las próximas semanas');
  told.push(`## Receipt\n\n> ${receipt}`);
});

test('6. the page shows what is back and what is still here; the chain of the quilt holds', async () => {
  const last = await phone.open(link.path);
  page('The page at the end', last);
  await phone.picture('8-at-the-end');
  const { body } = await bench.network.get(`/v1/items/${quilt.id}/custody-events?limit=200`).expect(200);
  expect(body.items.map(({ kind }: { kind: string }) => kind)).toEqual(expect.arrayContaining(['taken-in', 'referred-out', 'handed-back']));
  const sums = (await bench.network.get(`/v1/incidents/${bench.incident.id}/reconciliation`).expect(200)).body;
  note('Everything reconciles', sums as object);
  expect(sums).toMatchObject({ difference: 0, chainFaults: [], keepersOtherThanOne: [] });
});
