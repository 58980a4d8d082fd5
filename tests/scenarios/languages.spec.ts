/** Every route that says something to people says it in Spanish, too. */
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { translate } from '#care';
import { planNow } from '../unit/plan-problem/support/runs.js';
import { Workbench } from '../api/support/workbench.js';

interface Spoken {
  status: number;
  headers: Record<string, string>;
  body: unknown;
  text: string;
}

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const ES = { 'accept-language': 'es-MX, es;q=0.9' };
const person = () => bench.incident.person('P1');
const newQuilt = async () => bench.takeIn(await bench.household());
const handedBack = async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const made = await bench.handBack(household, [quilt.id]).expect(201);
  return { household, quilt, id: made.body.id as string };
};

/** Each speaking operation, asked for Spanish. */
const OPERATIONS: Record<string, () => Promise<Spoken>> = {
  getTriage: async () => bench.network.get(`/v1/items/${(await newQuilt()).id}/triage`, ES),
  assessItem: async () => bench.network.post(`/v1/items/${(await newQuilt()).id}/assessments`, { personId: person(), wetState: 'wet', mould: 'active' }, ES),
  recordColourTest: async () => bench.network.post(`/v1/items/${(await newQuilt()).id}/colour-tests`, { personId: person(), tests: [{ colour: 'red border', reading: 'any-transfer' }], allColoursTested: true }, ES),
  overrideDisposition: async () => bench.network.post(`/v1/items/${(await bench.testedQuilt(await bench.household())).id}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'The tables are full.', personId: person() }, ES),
  recordStepResult: async () => bench.network.post(`/v1/items/${(await bench.testedQuilt(await bench.household())).id}/step-results`, { step: 'rinse', outcome: 'dye-moved', personId: person() }, ES),
  listTriageHistory: async () => {
    const { id } = await newQuilt();
    await bench.assess(id, { mould: 'active' }).expect(201);
    return bench.network.get(`/v1/items/${id}/triage/history`, ES);
  },
  getPrecedence: async () => bench.network.get(`/v1/items/${(await newQuilt()).id}/precedence?over=${(await bench.assessedQuilt(await bench.household(), { significance: 'irreplaceable' })).id}`, ES),
  listDispositionOverrides: async () => {
    const { id } = await bench.testedQuilt(await bench.household());
    await bench.network.post(`/v1/items/${id}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'Las mesas están llenas.', personId: person() }).expect(201);
    await bench.assess(id, { mould: 'active', wetState: 'dry' }).expect(201);
    return bench.network.get(`/v1/incidents/${bench.incident.id}/disposition-overrides`, ES);
  },
  getRuleBook: async () => bench.network.get('/v1/rulebook', ES),
  listRules: async () => bench.network.get('/v1/rulebook/rules?limit=200', ES),
  compareRuleBooks: async () => {
    await newQuilt();
    return bench.network.post('/v1/rulebook/comparisons', { choices: { 'rinse-soaked-pieces': 'museum' }, incidentId: bench.incident.id }, ES);
  },
  estimateTriage: async () => bench.network.post('/v1/estimates/triage', { assessment: { materialClass: 'textile-quilt-padded', wetState: 'dripping', water: 'black', alreadyBled: true }, floodAt: '2026-05-08T18:00:00Z' }, ES),
  estimateOrder: async () => {
    const items = [{ id: 'colcha', assessment: { materialClass: 'textile-quilt-padded', wetState: 'wet' } }, { id: 'cartas', assessment: { materialClass: 'paper-soluble-media', wetState: 'wet' } }];
    return bench.network.post('/v1/estimates/order', { items, floodAt: '2026-05-08T18:00:00Z' }, ES);
  },
  listUnsuitedSteps: async () => {
    const { id } = await bench.testedQuilt(await bench.household());
    const override = { personId: person(), reason: 'Shown how this morning.' };
    await bench.report(id, 'wrap', 'done', { personId: bench.incident.person('P2'), disposition: 'hold-frozen', override }).expect(201);
    return bench.network.get(`/v1/incidents/${bench.incident.id}/unsuited-steps`, ES);
  },
  getWorkList: async () => {
    await newQuilt();
    await planNow(bench.server, bench.network, bench.incident);
    return bench.network.get(`/v1/stations/${bench.incident.station('TEST')}/work-list`, ES);
  },
  getDryingList: async () => bench.network.get(`/v1/sites/${bench.incident.site()}/drying-list`, ES),
  handBack: async () => {
    const household = await bench.household();
    const items = [{ itemId: (await bench.testedQuilt(household)).id, conditionNote: 'Seca.' }];
    return bench.network.post(`/v1/households/${household.id}/hand-backs`, { items, receiver: 'contact', identityCheck: 'document-seen', signatureRef: 'receipts/0007' }, ES);
  },
  getHandBack: async () => bench.network.get(`/v1/hand-backs/${(await handedBack()).id}`, ES),
  getHandBackReceipt: async () => bench.network.get(`/v1/hand-backs/${(await handedBack()).id}/receipt`, ES),
  getHouseholdReport: async () => bench.network.get(`/v1/households/${(await handedBack()).household.id}/situation-report`, ES),
  getSituationReport: async () => bench.network.get(`/v1/incidents/${bench.incident.id}/situation-report`, ES),
};

/** Sentences of the body that would have been another one in Spanish. Single words may be codes, and the answer to a question is a value to send back. */
function leftInEnglish(body: unknown): string[] {
  if (typeof body === 'string') return body.split('\n').filter((line) => line.includes(' ') && translate(line.trim(), 'es') !== line.trim());
  if (typeof body !== 'object' || body === null) return [];
  return Object.entries(body).flatMap(([member, value]) => (member === 'answer' ? [] : [...leftInEnglish(value), ...(COMPOSED.has(member) ? englishWords(value) : [])]));
}

/** Members whose sentences are put together, so that no catalogue knows them whole. */
const COMPOSED = new Set(['inWords', 'changes', 'conclusions']);
const englishWords = (value: unknown): string[] => [value].flat().filter((text): text is string => typeof text === 'string' && /\b(the|is|are|with|of|and|it)\b/i.test(text));

const documented = () =>
  Object.values(bench.server.document.paths)
    .flatMap((methods) => Object.values(methods) as unknown as { operationId: string; parameters?: { name: string; in: string; required?: boolean }[] }[])
    .filter(({ parameters }) => parameters?.some((parameter) => parameter.in === 'header' && parameter.name === 'Accept-Language'))
    .map(({ operationId }) => operationId);

test('the documentation names Accept-Language for exactly the operations below', () => {
  expect(documented().toSorted()).toEqual(Object.keys(OPERATIONS).toSorted());
});

describe.each(Object.entries(OPERATIONS))('%s', (_name, ask) => {
  test('speaks Spanish to who asks for it, says so, and leaves no sentence in English', async () => {
    const answer = await ask();
    expect([200, 201]).toContain(answer.status);
    expect(answer.headers).toMatchObject({ 'content-language': 'es', vary: 'Accept-Language' });
    expect(leftInEnglish(answer.text.startsWith('{') ? answer.body : answer.text)).toEqual([]);
  });
});

test('a command that is sent again answers in the language of its first answer, and says which', async () => {
  const quilt = await newQuilt();
  const send = (language: string) => bench.network.post(`/v1/items/${quilt.id}/assessments`, { personId: person(), wetState: 'wet' }, { 'accept-language': language, 'idempotency-key': '0198b7a0-0000-7000-8000-0000000000e5' }).expect(201);
  const [first, again] = [await send('es'), await send('en')];
  expect(again.headers).toMatchObject({ 'content-language': 'es', 'idempotency-replayed': 'true' });
  expect(again.body).toEqual(first.body);
});

test('a receipt is stored once and read out in either language, with the words of people as they wrote them', async () => {
  const { id, quilt } = await handedBack();
  const inLanguage = async (language: string) => (await bench.network.get(`/v1/hand-backs/${id}/receipt`, { 'accept-language': language }).expect(200)).text;
  const [english, spanish] = [await inLanguage('en'), await inLanguage('es')];
  for (const text of [english, spanish]) for (const kept of [quilt.tag, 'Dry, colours as before, one seam open at the left edge.', id]) expect(text).toContain(kept);
  expect(english).toMatch(/^Receipt for things handed back\n/);
  expect(spanish).toMatch(/^Recibo de objetos devueltos\n/);
  expect(spanish.split('\n').length).toBe(english.split('\n').length);
  const { rows } = await bench.server.admin.query(`select receipt ->> 'standing' as standing from hand_back where id = $1`, [id]);
  expect(rows[0].standing).toMatch(/^First aid/);
});
