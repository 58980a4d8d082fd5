/** Everything on record about one thing, gathered for a paper: how it came, what was found and done, how it stands. */
import { SKILL_WORDS, say, type Assessment, type ColourTest, type Message, type Skill, type StepKind, type TriageOutcome } from '#care';
import { formatTagCode, type Stage } from '#custody';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { latestTriageOf } from '../care/standing.js';
import type { AssessmentRecord } from '../ports/assessment-store.js';
import type { ConsentRecord } from '../ports/consent-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Money } from '../ports/owner-question-store.js';
import type { RecordedOutcome, StepResultRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { whereWords } from '../where/where-words.js';

/** What somebody saw, and when. */
export interface Look {
  atMs: number;
  observed: Assessment;
}

/** A step with whose hands did it, by what they were there for; no name. */
export interface DossierStep {
  step: StepKind;
  outcome: RecordedOutcome;
  startedAtMs: number | null;
  finishedAtMs: number;
  hands: Message;
  station: string | null;
  note: string;
}

export interface ItemDossier {
  item: Pick<ItemRecord, 'id' | 'incidentId' | 'householdId' | 'description' | 'count' | 'kind' | 'materialClass' | 'significance' | 'photographRef' | 'photographedOn' | 'arrivedAtMs' | 'wettedAtMs'> & { tag: string; stage: Stage };
  householdCode: string;
  householdLanguage: string;
  incidentName: string;
  timeZone: string;
  floodAtMs: number;
  /** Where it is, from the inside outwards. */
  where: Message[];
  first: Look;
  latest: Look;
  /** Readings in the order in which they were recorded. */
  tests: { atMs: number; test: ColourTest }[];
  weighings: { atMs: number; massKg: number; doubtful: boolean }[];
  steps: DossierStep[];
  outcome: TriageOutcome;
  /** The newest word of the owner for each scope that was spoken of. */
  words: Pick<ConsentRecord, 'scope' | 'given' | 'manner' | 'recordedAtMs'>[];
  /** Up to how much a specialist may cost, as the owner said; null where no limit was named. */
  referLimit: Money | null;
  /** Named by reference only; what was marked as showing people or documents is left out. */
  photographs: { reference: string; takenOn: string | null; /** Of one that is kept here. */ fileId?: string }[];
  /** When the record last changed: what was printed from one state has one content. */
  asOfMs: number;
}

/** For what somebody who does the step is there. */
const HANDS: Readonly<Partial<Record<StepKind, Skill>>> = {
  tag: 'intake', photograph: 'intake', assess: 'assessment', 'colour-test': 'colour-testing', stabilise: 'rinsing', rinse: 'rinsing', blot: 'blotting', dry: 'drying', check: 'drying', 'surface-clean': 'drying',
  wrap: 'freezer-wrapping', freeze: 'freezer-wrapping', thaw: 'freezer-wrapping', refer: 'lead', release: 'lead', 'hand-back': 'intake',
};

/** The record of one thing. @throws Problem not_found */
export async function itemDossier(stores: Stores, _call: UseCaseCall, input: { itemId: string }): Promise<ItemDossier> {
  const item = await stores.items.find(input.itemId);
  const [household, incident] = item ? [await stores.households.find(item.householdId), await stores.places.incident(item.incidentId)] : [null, null];
  if (!item || !household || !incident) throw notFound('item');
  const looks = await firstAndLatest(stores, item.id);
  const [whereabouts] = await stores.where.whereabouts(item.incidentId, [item.id]);
  const results = await stores.steps.ofItem(item.id);
  const { id, incidentId, householdId, description, count, kind, materialClass, significance, photographRef, photographedOn, arrivedAtMs, wettedAtMs, stage } = item;
  return {
    item: { id, incidentId, householdId, description, count, kind, materialClass, significance, photographRef, photographedOn, arrivedAtMs, wettedAtMs, stage, tag: formatTagCode(item.tagCode) },
    householdCode: household.code, householdLanguage: household.language, incidentName: (await stores.labelTemplates.incidentName(incidentId)) ?? '', timeZone: await stores.imports.timeZone(), floodAtMs: incident.floodAtMs,
    where: whereWords(whereabouts?.steps ?? []), ...looks,
    tests: (await stores.assessments.colourTests(id)).map(({ test, testedAtMs }) => ({ atMs: testedAtMs, test })),
    weighings: (await stores.weighings.ofItem(id)).map(({ weighedAtMs, massKg, state }) => ({ atMs: weighedAtMs, massKg, doubtful: state === 'doubtful' })),
    steps: await stepsOf(stores, item, results), outcome: (await latestTriageOf(stores, item)).result, ...(await wordsOf(stores, item)), photographs: await photographsOf(stores, item), asOfMs: item.updatedAtMs,
  };
}

const PAGE = 200;

async function firstAndLatest(stores: Stores, itemId: string): Promise<Pick<ItemDossier, 'first' | 'latest'>> {
  const lookOf = ({ assessedAtMs, observed }: AssessmentRecord): Look => ({ atMs: assessedAtMs, observed });
  let latest: Look | null = null;
  let first: Look | null = null;
  for (let before: { createdAtMs: number; id: string } | null = null; ; ) {
    const page: Awaited<ReturnType<Stores['assessments']['history']>> = await stores.assessments.history(itemId, PAGE, before);
    const [newest, oldest] = [page[0], page.at(-1)];
    if (newest && latest === null) latest = lookOf(newest.assessment);
    if (oldest) first = lookOf(oldest.assessment);
    if (page.length < PAGE || !oldest) break;
    before = { createdAtMs: oldest.triage.createdAtMs, id: oldest.triage.id };
  }
  if (latest === null || first === null) throw new Error('an item that was never assessed');
  return { first, latest };
}

async function stepsOf(stores: Stores, item: ItemRecord, results: readonly StepResultRecord[]): Promise<DossierStep[]> {
  const names = new Map<string, string>();
  for (const id of new Set(results.flatMap(({ stationId }) => stationId ?? []))) {
    const station = await stores.places.find(item.incidentId, { kind: 'station', id });
    if (station) names.set(id, station.name || station.code);
  }
  return results.map((result) => ({
    step: result.step, outcome: result.outcome, startedAtMs: result.startedAtMs, finishedAtMs: result.finishedAtMs, hands: handsOf(result),
    station: result.stationId === null ? null : (names.get(result.stationId) ?? null), note: result.note,
  }));
}

function handsOf({ step, personId, withPersonIds = [] }: StepResultRecord): Message {
  const count = (personId === null ? 0 : 1) + withPersonIds.length;
  const skill = HANDS[step];
  if (count === 0) return say('nobody was noted');
  if (skill === undefined) return say('{count, plural, one {# person} other {# people}}', { count });
  return say('{count, plural, one {# person} other {# people}}, {skill}', { count, skill: SKILL_WORDS[skill] });
}

/** The newest word of each scope that counts for the thing. */
async function wordsOf(stores: Stores, item: ItemRecord): Promise<Pick<ItemDossier, 'words' | 'referLimit'>> {
  const { ids, referLimit } = await stores.consents.inForce(item.householdId, item.id);
  const inForce = new Set(Object.values(ids));
  const all = await stores.consents.ofHousehold(item.householdId);
  return { words: all.filter(({ id }) => inForce.has(id)).map(({ scope, given, manner, recordedAtMs }) => ({ scope, given, manner, recordedAtMs })), referLimit };
}

const PHOTOGRAPHS = 200;

/** The reference that was noted at the doorway, and the photographs that are kept; those marked sensitive are left out. */
async function photographsOf(stores: Stores, { id, photographRef, photographedOn }: ItemRecord): Promise<ItemDossier['photographs']> {
  const kept = (await stores.files.page({ itemId: id }, false, PHOTOGRAPHS, null)).filter(({ kind, sensitive }) => kind === 'photograph' && !sensitive);
  const noted = photographRef === '' ? [] : [{ reference: photographRef, takenOn: photographedOn }];
  return [...noted, ...kept.map((file) => ({ reference: file.id, fileId: file.id, takenOn: new Date(file.begunAtMs).toISOString().slice(0, 10) }))];
}
