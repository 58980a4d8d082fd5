/** What to ask next: the unanswered observations, ordered by how much their answers could change. */
import { FIBRES, FRAGILITIES, MATERIAL_CLASSES, MOULD_STATES, SOILS, URGENCIES, WATER_KINDS, WET_STATES } from './types.js';
import type { Assessment, Consents, Disposition, Question, TriageResult } from './types.js';

type Outcome = Pick<TriageResult, 'urgency' | 'options' | 'bathGroup'>;
interface Candidate {
  answer: string;
  changed: Assessment;
}
interface OpenQuestion {
  observation: string;
  text: string;
  candidates: Candidate[];
}

/** How much a difference weighs: another way to go first, then how soon, then what is missing. Ours. */
const DIFFERENCE = { firstDisposition: 100, urgencyLevel: 40, otherOptions: 5, needs: 3, route: 2, bath: 1 } as const;

function among<T extends string>(assessment: Assessment, key: keyof Assessment, values: readonly T[]): Candidate[] {
  return values.filter((value) => value !== 'unknown').map((answer) => ({ answer, changed: { ...assessment, [key]: answer } }));
}

function yesNo(assessment: Assessment, key: 'alreadyBled' | 'onlyCopy' | 'highMarketValue' | 'detachedParts' | 'oldRepairs'): Candidate[] {
  return [true, false].map((value) => ({ answer: value ? 'yes' : 'no', changed: { ...assessment, [key]: value } }));
}

function coloursTested(assessment: Assessment, reading: 'no-transfer' | '4-5' | 'any-transfer'): Assessment {
  const test = { colour: 'all colours', solution: 'water', method: 'swab', reading } as const;
  return { ...assessment, allColoursTested: true, colourTests: [...assessment.colourTests, test] };
}

function openObservations(a: Assessment): OpenQuestion[] {
  const open: OpenQuestion[] = [];
  const ask = (isOpen: boolean, observation: string, text: string, candidates: Candidate[]): void => {
    if (isOpen) open.push({ observation, text, candidates });
  };
  const textile = a.materialClass.startsWith('textile') || a.materialClass === 'unknown';
  ask(a.materialClass === 'unknown', 'materialClass', 'What is it made of?', among(a, 'materialClass', MATERIAL_CLASSES));
  ask(a.wetState === 'unknown', 'wetState', 'Is it dripping, wet, damp or dry?', among(a, 'wetState', WET_STATES));
  ask(a.alreadyBled === null, 'alreadyBled', 'Has colour run into its neighbours already?', yesNo(a, 'alreadyBled'));
  ask(textile && (!a.allColoursTested || a.colourTests.length === 0) && a.alreadyBled !== true, 'colourTests', 'Does any colour or thread leave dye on a wet swab?', [
    { answer: 'no-transfer', changed: coloursTested(a, 'no-transfer') },
    { answer: '4-5', changed: coloursTested(a, '4-5') },
    { answer: 'any-transfer', changed: coloursTested(a, 'any-transfer') },
  ]);
  ask(a.mould === 'unknown', 'mould', 'Can you see mould? Look, do not touch: soft and damp, or dry powder?', among(a, 'mould', MOULD_STATES));
  ask(a.fragility === 'unknown', 'fragility', 'Does it hold its own weight?', among(a, 'fragility', FRAGILITIES));
  ask(a.water === 'unknown', 'water', 'What water was it: from a pipe, used, river or sewage, sea?', among(a, 'water', WATER_KINDS));
  ask(textile && a.fibre === 'unknown', 'fibre', 'Which fibre is it?', among(a, 'fibre', FIBRES));
  ask(a.highMarketValue === null, 'highMarketValue', 'Does the family think it is worth much money?', yesNo(a, 'highMarketValue'));
  ask((a.soil ?? 'unknown') === 'unknown', 'soil', 'Is there mud on it: none, a little, or so much that a finger sinks in?', among(a, 'soil', SOILS));
  ask((a.detachedParts ?? null) === null, 'detachedParts', 'Has anything come off or loose?', yesNo(a, 'detachedParts'));
  ask((a.oldRepairs ?? null) === null, 'oldRepairs', 'Was it mended, glued or restored before?', yesNo(a, 'oldRepairs'));
  ask(a.onlyCopy === null, 'onlyCopy', 'Is it the only copy?', yesNo(a, 'onlyCopy'));
  return open;
}

const CONSENT_TEXT: Readonly<Record<keyof Consents, string>> = {
  treat: 'May we treat it here?',
  freeze: 'May we freeze it to buy time?',
  refer: 'May we send it to a specialist?',
  release: 'May it be let go if it cannot be saved?',
};

function openConsents(a: Assessment): OpenQuestion[] {
  const kinds: (keyof Consents)[] = ['treat', 'freeze', 'refer', 'release'];
  return kinds
    .filter((kind) => a.consents[kind] === null)
    .map((kind) => ({
      observation: `consents.${kind}`,
      text: CONSENT_TEXT[kind],
      candidates: [true, false].map((value) => ({ answer: value ? 'yes' : 'no', changed: { ...a, consents: { ...a.consents, [kind]: value } } })),
    }));
}

const firstOf = (outcome: Outcome): Disposition => outcome.options[0]?.disposition ?? 'refer';
const optionKey = (outcome: Outcome): string => outcome.options.map(({ disposition }) => disposition).join(' ');
const needsKey = (outcome: Outcome): string => outcome.options.map(({ disposition, needs }) => `${disposition}:${needs.join('+')}`).join(' ');
const routeKey = (outcome: Outcome): string => (outcome.options[0]?.steps ?? []).map(({ step, zone }) => `${step}@${zone}`).join(' ');

/** How far apart two outcomes are, by our weights; 0 when nothing a lead would notice changes. */
function difference(now: Outcome, then: Outcome): number {
  const levels = Math.abs(URGENCIES.indexOf(now.urgency) - URGENCIES.indexOf(then.urgency));
  return (
    (firstOf(now) === firstOf(then) ? 0 : DIFFERENCE.firstDisposition) +
    levels * DIFFERENCE.urgencyLevel +
    (optionKey(now) === optionKey(then) ? 0 : DIFFERENCE.otherOptions) +
    (needsKey(now) === needsKey(then) ? 0 : DIFFERENCE.needs) +
    (routeKey(now) === routeKey(then) ? 0 : DIFFERENCE.route) +
    (now.bathGroup === then.bathGroup ? 0 : DIFFERENCE.bath)
  );
}

/** A wetting time nobody knows is asked as "how long ago": now, or at the flood's beginning as assumed. */
function wettingTime(a: Assessment, nowMs: number): OpenQuestion[] {
  if (a.wettedAtMs !== null) return [];
  const hoursAgo = [0, 12, 24, 48];
  const candidates = hoursAgo.map((hours) => ({ answer: hours === 0 ? 'just now' : `${hours} h ago`, changed: { ...a, wettedAtMs: nowMs - hours * 3_600_000 } }));
  return [{ observation: 'wettedAtMs', text: 'When did it get wet?', candidates }];
}

/**
 * Open questions, the one whose answers could change most first (largest change, then mean change, then
 * the order of a walk round the thing). `evaluate` runs the triage for a changed assessment.
 */
export function questionsFor(assessment: Assessment, outcome: Outcome, evaluate: (changed: Assessment) => Outcome, nowMs: number): Question[] {
  const open = [...openObservations(assessment), ...wettingTime(assessment, nowMs), ...openConsents(assessment)];
  const scored = open.map(({ observation, text, candidates }) => {
    const outcomes = candidates.map(({ answer, changed }) => ({ answer, result: evaluate(changed) }));
    const changes = outcomes.map(({ result }) => difference(outcome, result));
    const couldBecome = outcomes.map(({ answer, result }) => ({ answer, urgency: result.urgency, disposition: firstOf(result) }));
    return { question: { observation, text, couldBecome }, largest: Math.max(...changes), mean: changes.reduce((a, b) => a + b, 0) / changes.length };
  });
  return scored.sort((a, b) => b.largest - a.largest || b.mean - a.mean).map(({ question }) => question);
}
