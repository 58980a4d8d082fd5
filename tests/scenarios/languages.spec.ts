/** Every route that says something to people says it in Spanish, too. */
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { translate } from '#care';
import { planNow } from '../unit/plan-problem/support/runs.js';
import { submit, take } from '../api/submitIntakeImport/intake-files.js';
import { alarmsOf, readRoom, reckonAir } from '../api/support/air.js';
import { readDrawn } from '../api/support/drawn.js';
import { elementsOf } from '../api/support/plan-charts.js';
import { ask, reckon } from '../api/support/what-ifs.js';
import { Workbench } from '../api/support/workbench.js';
import { fileOperations } from './languages.files.js';
import { handBackOperations } from './languages.hand-back.js';
import { familyOperations } from './languages.families.js';
import { foundItemOperations } from './languages.found-items.js';
import { custodyOperations, type Spoken } from './languages.custody.js';

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

/** A file with something to say about itself, about rows that go in and about rows that do not. */
const FILE = 'tag,household,object,count,wettedAt,size,Shelf\nX,HH 1,,1.200,05/08/2026,vast,3\n,,Map,x,2020-01-01,,\n"KBCD-FGH-43",HH-7,Quilt,=A1,30.02.2026,,,,,9\n';
let sent = 0;
const imported = () => take(bench.server, bench.network, bench.incident, `${FILE}Z${(sent += 1)},HH-1,Letter\n`);

/** A room too damp for what hangs in it, as the worker has reckoned it; made once. */
let damp: Promise<{ quilt: { id: string }; room: string }> | undefined;
const dampRoom = () => (damp ??= makeDampRoom());
const makeDampRoom = async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  await readRoom(bench.network, bench.incident, '2026-05-09T06:59:00Z', 88);
  await reckonAir(bench.server, bench.network);
  return { quilt, room: bench.incident.room('ROOM') };
};

/** The same with the quilt weighed where it hangs. */
const weighedRoom = async () => {
  const { quilt, room } = await dampRoom();
  await bench.network.post(`/v1/items/${quilt.id}/weighings`, { scaleKg: 5.2, resolutionKg: 0.01, weighedAt: '2026-05-09T07:00:00Z', personId: person() }).expect(201);
  return { quilt, room };
};

/** The chart of a station that has work by the plan. */
const rinsePlanned = async () => {
  await bench.testedQuilt(await bench.household());
  await planNow(bench.server, bench.network, bench.incident);
  return `/v1/stations/${bench.incident.station('RINSE')}/plan-chart`;
};
const newWish = async () => bench.network.post(`/v1/incidents/${bench.incident.id}/plan-wishes`, { itemId: (await newQuilt()).id, kind: 'first', reason: 'Lo pide su dueña.', personId: person() }, ES);
const newRevision = async () => {
  await planNow(bench.server, bench.network, bench.incident);
  return (await bench.network.get(`/v1/incidents/${bench.incident.id}/plan`).expect(200)).body.revisionId as string;
};

/** A picture, with all of its words as the text of a body. */
async function pictured(path: string): Promise<Spoken> {
  const { status, headers, body } = await bench.network.get(path, ES);
  const { title, desc, words } = readDrawn((body as Buffer).toString());
  return { status, headers, body: { text: [title, desc, ...words] }, text: '{}' };
}

/** The same of a chart. */
async function charted(path: string): Promise<Spoken> {
  const { status, headers, body } = await bench.network.get(path, ES);
  const said = elementsOf((body as Buffer).toString()).filter(({ name }) => ['text', 'title', 'desc'].includes(name)).map(({ text }) => text);
  return { status, headers, body: { text: said }, text: '{}' };
}


/** Each speaking operation, asked for Spanish. */
const OPERATIONS: Record<string, () => Promise<Spoken>> = {
  ...custodyOperations(() => bench),
  ...fileOperations(() => bench),
  ...familyOperations(() => bench),
  ...foundItemOperations(() => bench),
  ...handBackOperations(() => bench),
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
  getCalibration: async () => bench.network.get('/v1/calibration', ES),
  getRuleBook: async () => bench.network.get('/v1/rulebook', ES),
  listRules: async () => bench.network.get('/v1/rulebook/rules?limit=200', ES),
  listRuleBookReleases: async () => bench.network.get('/v1/rulebook/releases', ES),
  compareRuleBooks: async () => {
    await newQuilt();
    return bench.network.post('/v1/rulebook/comparisons', { to: { choices: { 'rinse-soaked-pieces': 'museum' } }, incidentId: bench.incident.id }, ES);
  },
  estimateTriage: async () => bench.network.post('/v1/estimates/triage', { assessment: { materialClass: 'textile-quilt-padded', wetState: 'dripping', water: 'black', alreadyBled: true }, floodAt: '2026-05-08T18:00:00Z' }, ES),
  estimateOrder: async () => {
    const items = [{ id: 'colcha', assessment: { materialClass: 'textile-quilt-padded', wetState: 'wet' } }, { id: 'cartas', assessment: { materialClass: 'paper-soluble-media', wetState: 'wet' } }];
    return bench.network.post('/v1/estimates/order', { items, floodAt: '2026-05-08T18:00:00Z' }, ES);
  },
  estimateDrying: async () => bench.network.post('/v1/estimates/drying', { air: { airTempC: 20, relativeHumidityPct: 55 }, goods: { material: 'cotton', dryMassKg: 2, faceAreaM2: 3 } }, ES),
  estimateRoom: async () => bench.network.post('/v1/estimates/room', { room: { volumeM3: 60, airTempC: 12, relativeHumidityPct: 60, outdoorTempC: 6, outdoorRelativeHumidityPct: 80, dehumidifiers: [{ ratedLitresPerDay: 20, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60, count: 4 }] }, goods: [{ kind: 'throw', count: 30 }] }, ES),
  estimateAcceptance: async () => bench.network.post('/v1/estimates/acceptance', { room: { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, outdoorTempC: 12, outdoorRelativeHumidityPct: 80 }, waiting: [{ kind: 'garment', count: 40 }], freeRackM2: 60 }, ES),
  estimateClock: async () => {
    const body = { start: '2026-05-08T18:00:00Z', until: '2026-05-10T18:00:00Z', readings: [{ measuredAt: '2026-05-08T18:00:00Z', airTempC: 20, place: 'ATTIC' }], damage: [{ clock: 'stuck-prints', holdings: [{ from: '2026-05-08T18:00:00Z', holding: 'kept-wet' }] }, { clock: 'collodion-plate', holdings: [{ from: '2026-05-08T18:00:00Z', holding: 'frozen' }] }] };
    return bench.network.post('/v1/estimates/clock', body, ES);
  },
  estimateLift: async () => bench.network.post('/v1/estimates/lift', { bundle: { dryMassKg: 4, stage: 'dripping', padded: true }, air: { airTempC: 22, relativeHumidityPct: 45 } }, ES),
  estimateHeat: async () => bench.network.post('/v1/estimates/heat', { heat: { from: 'outdoor-air', air: { airTempC: 31, relativeHumidityPct: 60 } }, wear: { clothing: 'vapour-barrier' }, person: { pulsePerMin: 130 } }, ES),
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
  getCarryList: async () => bench.network.get(`/v1/incidents/${bench.incident.id}/carry-list`, ES),
  getReferralList: async () => bench.network.get(`/v1/incidents/${bench.incident.id}/referral-list`, ES),
  getDryingList: async () => bench.network.get(`/v1/sites/${bench.incident.site()}/drying-list`, ES),
  handBack: async () => {
    const household = await bench.household();
    const items = [{ itemId: (await bench.testedQuilt(household)).id, conditionNote: 'Seca.' }];
    return bench.network.post(`/v1/households/${household.id}/hand-backs`, { items, receiver: 'contact', identityCheck: 'document-seen', signatureRef: 'receipts/0007' }, ES);
  },
  getHandBack: async () => bench.network.get(`/v1/hand-backs/${(await handedBack()).id}`, ES),
  getHandBackReceipt: async () => bench.network.get(`/v1/hand-backs/${(await handedBack()).id}/receipt`, ES),
  getHouseholdReport: async () => bench.network.get(`/v1/households/${(await handedBack()).household.id}/situation-report`, ES),
  submitIntakeImport: async () => submit(bench.network, bench.incident, FILE, { ...ES, 'content-type': 'text/csv' }),
  getIntakeImport: async () => bench.network.get(`/v1/intake-imports/${await imported()}`, ES),
  listIntakeImportRows: async () => bench.network.get(`/v1/intake-imports/${await imported()}/rows`, ES),
  getRefusedRows: async () => bench.network.get(`/v1/intake-imports/${await imported()}/refused-rows`, ES),
  requestPlanRun: async () => bench.network.post(`/v1/incidents/${bench.incident.id}/plan-runs`, { reason: '' }, ES),
  requestPlanWhatIf: async () => {
    await planNow(bench.server, bench.network, bench.incident);
    return bench.network.post(`/v1/incidents/${bench.incident.id}/plan-what-ifs`, {}, ES);
  },
  getPlanWhatIf: async () => {
    await planNow(bench.server, bench.network, bench.incident);
    const id = await ask(bench.network, bench.incident, { changes: [{ kind: 'freezer', siteId: bench.incident.site(), volumeL: 500 }, { kind: 'person-leaves', personId: person(), at: '2026-05-09T07:30:00Z' }] });
    await reckon(bench.server, bench.network, id, undefined, { iterations: 0, seeds: [1] });
    return bench.network.get(`/v1/plan-what-ifs/${id}`, ES);
  },
  getPlanExplanation: async () => {
    const [one, other] = [await newQuilt(), await newQuilt()];
    await planNow(bench.server, bench.network, bench.incident);
    return bench.network.get(`/v1/items/${one.id}/plan-explanation?before=${other.id}`, ES);
  },
  getPlanRun: async () => {
    await planNow(bench.server, bench.network, bench.incident);
    const household = await bench.household();
    await bench.takeIn(household);
    await bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'treat', given: false, manner: 'spoken' }).expect(201);
    const { body } = await bench.network.post(`/v1/incidents/${bench.incident.id}/plan-runs`, { reason: '' }).expect(202);
    return bench.network.get(`/v1/plan-runs/${body.id}`, ES);
  },
  recordPlanWish: async () => newWish(),
  recordStationWish: async () => bench.network.post(`/v1/stations/${bench.incident.station('RINSE')}/plan-wishes`, { itemId: (await newQuilt()).id, kind: 'bar-station', step: 'rinse', reason: 'Demasiado grande.', personId: person() }, ES),
  listPlanWishes: async () => {
    const pinned = await bench.testedQuilt(await bench.household(), { significance: 'irreplaceable' });
    await planNow(bench.server, bench.network, bench.incident);
    for (const wish of [{ kind: 'pin' }, { kind: 'first' }, { kind: 'not-before', notBefore: '2026-05-10T09:00:00Z' }, { kind: 'bar-station', stationId: bench.incident.station('BLOT') }, { kind: 'bar-way', disposition: 'refer' }]) {
      await bench.network.post(`/v1/incidents/${bench.incident.id}/plan-wishes`, { itemId: pinned.id, reason: 'Lo pide su dueña.', personId: person(), ...wish }).expect(201);
    }
    // The moment is not before nine of the next day, so the pin falls.
    await planNow(bench.server, bench.network, bench.incident);
    return bench.network.get(`/v1/incidents/${bench.incident.id}/plan-wishes?state=all&itemId=${pinned.id}`, ES);
  },
  withdrawPlanWish: async () => bench.network.post(`/v1/plan-wishes/${(await newWish()).body.id}/withdrawals`, { personId: person(), reason: 'Ya no hace falta.' }, ES),
  getPlanRevision: async () => bench.network.get(`/v1/plan-revisions/${await newRevision()}`, ES),
  listPlanChanges: async () => {
    const { id } = await bench.testedQuilt(await bench.household(), { description: 'Colcha' });
    const since = await newRevision();
    for (const disposition of ['treat', 'hold-frozen', 'hold-wet', 'refer', 'release']) await bench.network.post(`/v1/incidents/${bench.incident.id}/plan-wishes`, { itemId: id, kind: 'bar-way', disposition, reason: 'Nadie sabe.', personId: person() }).expect(201);
    const fallen = await bench.network.get(`/v1/plan-revisions/${await newRevision()}/changes?since=${since}&kind=fallen-out`, ES);
    expect(fallen.body.items).toHaveLength(1);
    return fallen;
  },
  getPlan: async () => {
    await newQuilt();
    await planNow(bench.server, bench.network, bench.incident);
    return bench.network.get(`/v1/incidents/${bench.incident.id}/plan`, ES);
  },
  listUnplannedItems: async () => {
    const { id } = await newQuilt();
    await bench.network.post(`/v1/items/${id}/assessments`, { personId: person(), wetState: 'wet', wettedAt: '2026-05-01T00:00:00Z' }).expect(201);
    await planNow(bench.server, bench.network, bench.incident);
    return bench.network.get(`/v1/incidents/${bench.incident.id}/plan/unplanned?limit=200`, ES);
  },
  recordReadings: async () => {
    await bench.network.post(`/v1/incidents/${bench.incident.id}/sensors`, { code: 'ES-1', name: 'T', placeKind: 'drying-room', placeId: bench.incident.room('ROOM') }).expect(201);
    const reading = { sensor: 'ES-1', measuredAt: '2026-05-09T06:40:00Z', airTempC: 21, relativeHumidityPct: 62 };
    const bad = [{ airTempC: 70 }, { airTempC: 300 }, { airTempC: 999 }, { relativeHumidityPct: 104 }, { relativeHumidityPct: 0.6 }, { measuredAt: '2020-01-01T00:00:00Z' }, { measuredAt: '2027-01-01T00:00:00Z' }, { measuredAt: 'x y' }, { airTempC: '21 C' }, { airTempC: 'x y' }, { sensor: 'X' }, { sensor: '' }, { place: 'F1' }, { airTempC: 22 }, { rain: 1 }];
    return bench.network.post(`/v1/incidents/${bench.incident.id}/readings`, { readings: [reading, { ...reading, measuredAt: '2026-05-09T06:41:00Z', airTempC: 40 }, ...bad.map((change) => ({ ...reading, ...change }))] }, ES);
  },
  listReadings: async () => {
    await bench.network.post(`/v1/incidents/${bench.incident.id}/sensors`, { code: 'ES-2', name: 'T', placeKind: 'drying-room', placeId: bench.incident.room('ROOM') }).expect(201);
    await bench.network.post(`/v1/incidents/${bench.incident.id}/readings`, { readings: [{ sensor: 'ES-2', measuredAt: '2026-05-09T06:40:00Z', airTempC: 50 }] }).expect(200);
    return bench.network.get(`/v1/incidents/${bench.incident.id}/readings?state=doubtful`, ES);
  },
  recordWeighing: async () => bench.network.post(`/v1/items/${(await newQuilt()).id}/weighings`, { scaleKg: 50, weighedAt: '2026-05-09T07:00:00Z' }, ES),
  recordWeighings: async () => {
    const { id } = await newQuilt();
    const weighing = { item: id, scaleKg: 6, weighedAt: '2026-05-09T07:00:00Z' };
    const nobody = bench.incident.room('ROOM');
    return bench.network.post(`/v1/incidents/${bench.incident.id}/weighings`, { weighings: [weighing, ...[{ scaleKg: 5 }, { item: nobody }, { scaleKg: 'x' }, { rain: 1 }, { personId: nobody }, { dryingPlaceId: nobody }, { scaleKg: 500 }].map((change) => ({ ...weighing, ...change }))] }, ES);
  },
  listWeighings: async () => {
    const { id } = await newQuilt();
    for (const [scaleKg, minute] of [[6, '00'], [9, '01'], [1, '02']]) await bench.network.post(`/v1/items/${id}/weighings`, { scaleKg, weighedAt: `2026-05-09T07:${minute}:00Z` }).expect(201);
    return bench.network.get(`/v1/items/${id}/weighings`, ES);
  },
  recordWeather: async () => {
    const record = { validAt: '2026-05-09T06:40:00Z', airTempC: 18, relativeHumidityPct: 80 };
    const bad = [{ airTempC: 77 }, { relativeHumidityPct: null }, { windMPerS: 200 }, { airTempC: 19 }, { rain: 1 }, { validAt: null }];
    return bench.network.post(`/v1/incidents/${bench.incident.id}/sites/${bench.incident.site()}/weather`, { kind: 'observed', source: 'Oficina', records: [record, ...bad.map((change) => ({ ...record, ...change }))] }, ES);
  },
  getSituationReport: async () => {
    await newQuilt();
    await planNow(bench.server, bench.network, bench.incident);
    return bench.network.get(`/v1/incidents/${bench.incident.id}/situation-report`, ES);
  },
  getRoomState: async () => bench.network.get(`/v1/drying-rooms/${(await dampRoom()).room}/climate`, ES),
  getRoomForecast: async () => bench.network.get(`/v1/drying-rooms/${(await dampRoom()).room}/forecast`, ES),
  listRoomItems: async () => bench.network.get(`/v1/drying-rooms/${(await dampRoom()).room}/items`, ES),
  getRoomAcceptance: async () => bench.network.get(`/v1/drying-rooms/${(await dampRoom()).room}/acceptance?kinds=garment`, ES),
  listArrangementFits: async () => bench.network.get(`/v1/drying-rooms/${(await weighedRoom()).room}/fits`, ES),
  getItemClimate: async () => bench.network.get(`/v1/items/${(await dampRoom()).quilt.id}/climate`, ES),
  plotRoomClimate: async () => pictured(`/v1/drying-rooms/${(await dampRoom()).room}/climate/plot`),
  getStationPlan: async () => bench.network.get(`${await rinsePlanned()}?from=2026-05-09T00:00:00Z&hours=48`, ES),
  plotStationPlan: async () => charted(`${await rinsePlanned()}/plot?from=2026-05-09T00:00:00Z&hours=48`),
  getPlanLoad: async () => {
    await rinsePlanned();
    return bench.network.get(`/v1/incidents/${bench.incident.id}/plan-load?resource=room-air&what=${bench.incident.room('ROOM')}`, ES);
  },
  plotPlanLoad: async () => {
    await rinsePlanned();
    return charted(`/v1/incidents/${bench.incident.id}/plan-load/plot?resource=station&what=rinse&siteId=${bench.incident.site()}`);
  },
  getPlanProgress: async () => {
    await rinsePlanned();
    return bench.network.get(`/v1/incidents/${bench.incident.id}/plan-progress`, ES);
  },
  plotItemClimate: async () => pictured(`/v1/items/${(await dampRoom()).quilt.id}/climate/plot`),
  listAlarms: async () => {
    await dampRoom();
    return bench.network.get(`/v1/incidents/${bench.incident.id}/alarms`, ES);
  },
  acknowledgeAlarm: async () => {
    await dampRoom();
    const [alarm] = await alarmsOf(bench.network, bench.incident);
    return bench.network.post(`/v1/alarms/${alarm!.id}/acknowledgements`, { personId: person() }, ES);
  },
};

/** Sentences of the body that would have been another one in Spanish. Single words may be codes, and the answer to a question is a value to send back. */
function leftInEnglish(body: unknown): string[] {
  if (typeof body === 'string') return body.split('\n').filter((line) => line.includes(' ') && translate(line.trim(), 'es') !== line.trim());
  if (typeof body !== 'object' || body === null) return [];
  return Object.entries(body).flatMap(([member, value]) => (member === 'answer' ? [] : [...leftInEnglish(value), ...(COMPOSED.has(member) ? englishWords(value) : [])]));
}

/** Members whose sentences are put together, so that no catalogue knows them whole. */
const COMPOSED = new Set(['inWords', 'startByInWords', 'changes', 'conclusions', 'text', 'failure']);
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
    expect([200, 201, 202]).toContain(answer.status);
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
