/** Negotiation of the language by RFC 9110, section 12.5.4, on the route that says most. */
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let path: string;
beforeAll(async () => {
  bench = await Workbench.open();
  path = `/v1/items/${(await bench.takeIn(await bench.household())).id}/triage`;
});
afterAll(() => bench.close());

const read = (header?: string) => bench.network.get(path, header === undefined ? {} : { 'accept-language': header }).expect(200);
const ENGLISH = /^Advice to a trained lead/;
const SPANISH = /^Consejos para una persona responsable/;

describe('who asks for a language we speak gets it, and everybody else English', () => {
  test.each([
    ['nothing', undefined, 'en'],
    ['English', 'en', 'en'],
    ['Spanish', 'es', 'es'],
    ['Spanish in capitals', 'ES', 'es'],
    ['Mexican Spanish', 'es-MX', 'es'],
    ['Latin American Spanish before English', 'es-419, es;q=0.9, en;q=0.8', 'es'],
    ['Spanish more than English', 'en;q=0.4, es;q=0.9', 'es'],
    ['English more than Spanish', 'es;q=0.4, en;q=0.9', 'en'],
    ['French', 'fr', 'en'],
    ['French, then Spanish', 'fr, es;q=0.5', 'es'],
    ['anything', '*', 'en'],
    ['anything but English', '*, en;q=0', 'es'],
    ['no Spanish', 'es;q=0', 'en'],
    ['nothing at all', '*;q=0', 'en'],
    ['an empty header', '', 'en'],
    ['garbage', ';;q==,,%00<script>', 'en'],
    ['a weight that is no number', 'es;q=much', 'en'],
    ['a tag with an underscore', 'es_MX', 'en'],
    ['more languages than anybody speaks', `${'xx, '.repeat(1_500)}es`, 'es'],
  ])('%s', async (_what, header, language) => {
    const { body, headers } = await read(header);
    expect(headers).toMatchObject({ 'content-language': language, vary: 'Accept-Language' });
    expect(body.standing).toMatch(language === 'es' ? SPANISH : ENGLISH);
  });
});

test('Spanish and English differ in their sentences and in nothing else', async () => {
  const [english, spanish] = [(await read('en')).body, (await read('es')).body];
  for (const member of ['itemId', 'urgency', 'startBy', 'clocks', 'disposition', 'nextStep', 'bathGroup', 'observed', 'ruleBookVersion']) expect(spanish[member]).toEqual(english[member]);
  expect(spanish.options.map(({ steps }: { steps: { step: string }[] }) => steps.map(({ step }) => step))).toEqual(english.options.map(({ steps }: { steps: { step: string }[] }) => steps.map(({ step }) => step)));
  expect(spanish.reasons.map(({ ruleId }: { ruleId: string }) => ruleId)).toEqual(english.reasons.map(({ ruleId }: { ruleId: string }) => ruleId));
  expect(spanish.never.map(({ text }: { text: string }) => text)).not.toEqual(english.never.map(({ text }: { text: string }) => text));
});

test('an answer to a question is a value in every language, with words beside it', async () => {
  const answersIn = async (language: string) => (await read(language)).body.askNext.find(({ observation }: { observation: string }) => observation === 'wetState').couldBecome as { answer: string; inWords: string }[];
  expect(await answersIn('es')).toContainEqual(expect.objectContaining({ answer: 'dripping', inWords: 'chorreando' }));
  expect(await answersIn('en')).toContainEqual(expect.objectContaining({ answer: 'dripping', inWords: 'dripping' }));
});

test('a title of a publication stays in its own language; what we say about sources does not', async () => {
  const cites = (await read('es')).body.reasons.map(({ source }: { source: { mark: string; cite: string } }) => source) as { mark: string; cite: string }[];
  expect(cites.filter(({ mark }) => mark === 'published').map(({ cite }) => cite)).toContainEqual(expect.stringContaining('FEMA'));
  for (const { mark, cite } of cites) if (mark === 'own-calibration') expect(cite).toMatch(/^Calibración propia: /);
});

test('each language has an entity tag of its own, and either is taken for a change of the item', async () => {
  const tagIn = async (language: string) => (await read(language)).headers['etag'] ?? '';
  const [english, spanish] = [await tagIn('en'), await tagIn('es')];
  expect(english).toMatch(/^"\d+"$/);
  expect(spanish).not.toBe(english);
  const itemPath = path.replace('/triage', '');
  await bench.network.patch(itemPath, { familyWords: 'La hizo mi abuela.' }, { 'if-match': spanish }).expect(200);
  await bench.network.patch(itemPath, { familyWords: 'Made by my grandmother.' }, { 'if-match': spanish }).expect(412);
});

test('what is stored stays English, whoever reads it', async () => {
  await read('es');
  const { rows } = await bench.server.admin.query(`select result ->> 'standing' as standing from triage_result`);
  for (const { standing } of rows) expect(standing).toMatch(ENGLISH);
});

test('a problem document is in English: it is for developers', async () => {
  const { body, headers } = await bench.network.get(path.replace(/items\/[^/]+/, 'items/0198b7a0-0000-7000-8000-00000000dead'), { 'accept-language': 'es' }).expect(404);
  expect(body.detail).toMatch(/^[A-Z][a-z ]+/);
  expect(headers['content-language']).toBeUndefined();
});
