import { mayDo, render, say, STEP_WORDS, type CareStep, type DispositionOption, type Message, type Skill, type StepAtHand, type StepKind, type Suitability } from '#care';
import { Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce, peopleCalibrationInForce } from '../calibration/in-force.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { CrewMember } from '../ports/place-store.js';
import type { UnsuitedPerson } from '../ports/step-store.js';
import type { TriageRecord } from '../ports/assessment-store.js';
import type { Stores } from '../ports/work.js';
import { refuseNoLead, unknownReference } from './claims.js';
import { stepAtHand } from './hands-on.js';
import { thawBefore } from './route.js';
import type { Standing } from './standing.js';
import { dayIn, minutesWithin } from './worked-time.js';

/** A lead who answers for work that was done by somebody who should not have done it. */
export interface SuitabilityOverride {
  personId: string;
  reason: string;
}

/** Whoever a report names: who did it, who helped, and the lead who answers for it where one must. */
export interface Named {
  personId: string;
  withPersonIds: readonly string[];
  override: SuitabilityOverride | null;
}

/** A step that was reported, with what is known of the item. */
export interface ReportedWork {
  item: ItemRecord;
  standing: Standing;
  triage: TriageRecord;
  way: DispositionOption;
  step: StepKind;
  startedAtMs: number | null;
  finishedAtMs: number;
  liftingAid: boolean;
  /** Minutes of rest between start and end. */
  restMinutes: number;
}

/** The people of a report. They must be of the incident, and the lead must be one. @throws Problem reference_unknown or command_refused */
export async function crewOf(stores: Stores, incidentId: string, { personId, withPersonIds, override }: Named): Promise<CrewMember[]> {
  const ids = [...new Set([personId, ...withPersonIds])];
  const found = await stores.places.crew(incidentId, ids);
  const crew = ids.map((id, index) => {
    const member = found.find((candidate) => candidate.id === id);
    if (!member) throw unknownReference('person', index === 0 ? '#/personId' : `#/withPersonIds/${withPersonIds.indexOf(id)}`);
    return member;
  });
  if (override !== null) await refuseNoLead(stores, { incidentId, personId: override.personId, may: 'answer for work that was done by somebody else than it should have been. Ask a lead.', pointer: '#/override/personId' });
  return crew;
}

/** Those of a crew who should not do what they report, with why and what they can do instead. */
export async function unsuitedFor(stores: Stores, crew: readonly CrewMember[], work: ReportedWork): Promise<UnsuitedPerson[]> {
  const { item, standing, way, triage, startedAtMs, finishedAtMs, liftingAid } = work;
  const care = careOf(work);
  const incident = await stores.places.incident(item.incidentId);
  if (care === null || !incident) return [];
  const [numbers, climate] = [await peopleCalibrationInForce(stores), await climateCalibrationInForce(stores)];
  const toHand = (one: CareStep): StepAtHand => stepAtHand(one, item, standing.assessment.observed, incident, climate);
  const step = toHand(care);
  const others = stepsOf([way, ...triage.result.options]).filter((one) => !BY_LEADS.has(one.step)).map(toHand);
  const atMs = startedAtMs ?? finishedAtMs;
  const common = { atMs, onDay: dayIn(await stores.imports.timeZone(), atMs), peopleTogether: crew.length, liftingAid, others };
  const worked = await workedMinutes(stores, crew, work, step);
  return crew.flatMap((member) => refusedOne(member.id, mayDo(member, step, { ...common, workedMinutesInHour: worked(member.id) }, numbers)));
}

function refusedOne(personId: string, suitability: Suitability): UnsuitedPerson[] {
  return suitability.allowed ? [] : [{ personId, reasons: suitability.reasons, instead: suitability.instead }];
}

/** Steps that are no offer to somebody who looks for other work. */
const BY_LEADS: ReadonlySet<StepKind> = new Set(['refer', 'release', 'hand-back']);

/** Looks are asked of every thing, whether or not its way holds them. */
const SKILL_OF_LOOK: Readonly<Partial<Record<StepKind, Skill>>> = { assess: 'assessment', 'colour-test': 'colour-testing' };

/** How the step is done on its way; null for a report of which no way says how. */
function careOf({ step, way, triage }: ReportedWork): CareStep | null {
  if (step === 'thaw') return thawBefore(way);
  const onAWay = stepsOf([way, ...triage.result.options]).find((care) => care.step === step);
  const skill = SKILL_OF_LOOK[step];
  return onAWay ?? (skill === undefined ? null : lookOn(way, step, skill));
}

/** A look that no way holds: the thing is as dirty and as mouldy as its way says, and whoever looks wears what all of its dirty steps ask for. */
function lookOn(way: DispositionOption, step: StepKind, skill: Skill): CareStep {
  const dirty = way.steps.filter(({ zone }) => zone === 'dirty' || zone === 'quarantine');
  const inAll = <T>(of: (care: CareStep) => readonly T[]): T[] => (dirty[0] === undefined ? [] : of(dirty[0]).filter((one) => dirty.every((care) => of(care).includes(one))));
  return {
    step, skill, zone: dirty[0]?.zone ?? 'clean', minutesPerPiece: 0, crew: 1, stabilises: false, cautions: [],
    ppe: inAll(({ ppe }) => ppe), barredRestrictions: inAll(({ barredRestrictions }) => barredRestrictions),
  };
}

/** Each step once, as the first way has it. */
function stepsOf(ways: readonly DispositionOption[]): CareStep[] {
  const steps = new Map<StepKind, CareStep>();
  for (const care of ways.flatMap((way) => way.steps)) if (!steps.has(care.step)) steps.set(care.step, care);
  return [...steps.values()];
}

const HOUR_MS = 3_600_000;

/** Minutes each has worked in the hour up to the end of the step, with the step; not looked up where no heat limits the work. */
async function workedMinutes(stores: Stores, crew: readonly CrewMember[], { item, startedAtMs, finishedAtMs, restMinutes }: ReportedWork, step: StepAtHand): Promise<(personId: string) => number | null> {
  if (step.heat === null || step.heat.workMinutesPerHour >= 60 || startedAtMs === null) return () => null;
  const fromMs = finishedAtMs - HOUR_MS;
  const spans = await stores.steps.workedSpans(item.incidentId, crew.map(({ id }) => id), fromMs, finishedAtMs);
  return (personId) => minutesWithin([...spans.filter((span) => span.personId === personId), { fromMs: startedAtMs, toMs: finishedAtMs - restMinutes * 60_000 }], fromMs, finishedAtMs);
}

/**
 * Work that counts as done needs people who may do it, or a lead who answers for it. What was found, and what failed, is taken
 * from everybody: nobody should keep mould to themselves because they were not supposed to see it.
 * @throws Problem person_not_suited
 */
export function refuseUnsuited(unsuited: readonly UnsuitedPerson[], reported: Named, takenFromEverybody: boolean): void {
  if (unsuited.length === 0 || takenFromEverybody || reported.override !== null) return;
  const errors: ProblemError[] = unsuited.flatMap(({ personId, reasons }) => {
    const pointer = personId === reported.personId ? '#/personId' : `#/withPersonIds/${reported.withPersonIds.indexOf(personId)}`;
    return reasons.map(({ code, text }) => ({ detail: render(text, 'en'), code, pointer }));
  });
  const why = sentencesOf(unsuited).map((sentence) => render(sentence, 'en')).join(' ');
  const people = unsuited.map(({ reasons, ...person }) => ({ ...person, reasons: reasons.map((reason) => ({ ...reason, source: { ...reason.source, cite: { text: reason.source.cite } } })) }));
  // The members are for the people at the station, in their language; the detail is for whoever builds their screen.
  throw new Problem('person_not_suited', `${why} If the work was really done, a lead answers for it in \`override\` with a reason; then it is recorded and listed.`, { errors, members: { inWords: sentencesOf(unsuited), people } });
}

/** Why, and what they can do instead, in sentences. */
export function sentencesOf(unsuited: readonly UnsuitedPerson[]): Message[] {
  const once = new Map(unsuited.flatMap(({ reasons }) => reasons.map(({ text }) => [render(text, 'en'), text] as const)));
  const instead = unsuited.length === 1 ? (unsuited[0]?.instead ?? []) : [];
  return [...once.values(), ...(instead.length === 0 ? [] : [say('What this person can do on this item: {steps}.', { steps: listOf(instead) })])];
}

/** `rinse or blot or dry`, each in the language of the reader. */
function listOf([first, ...others]: readonly StepKind[]): Message {
  const word = STEP_WORDS[first ?? 'pack'];
  return others.length === 0 ? word : say('{first} or {others}', { first: word, others: listOf(others) });
}

/** What the report says of people who should not have done it. */
export function tellUnsuited(unsuited: readonly UnsuitedPerson[]): Message[] {
  return unsuited.length === 0 ? [] : [say('Kept on the list of steps done by people who should not do them.'), ...sentencesOf(unsuited)];
}

/** What was done by people who should not have done it. */
export interface UnsuitedWork {
  incidentId: string;
  itemId: string;
  step: StepKind;
  /** Null for a look that leaves no step result, such as a colour test that is not complete. */
  stepResultId: string | null;
  people: UnsuitedPerson[];
  override: SuitabilityOverride | null;
}

/** Keeps it, with the lead who answers for it. */
export async function keepUnsuited(stores: Stores, call: UseCaseCall, work: UnsuitedWork): Promise<void> {
  if (work.people.length > 0) await stores.steps.insertUnsuited({ id: call.env.newId(), ...work, recordedAtMs: call.env.nowMs });
}
