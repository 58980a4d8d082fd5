/** What a piece of work asks of people, for the crew at the station before it begins; the reports are judged by care/suited.ts. */
import { isLifted, mayDo, say, type CareStep, type Message, type PeopleCalibration, type StepAtHand, type SuitabilityReason } from '#care';
import type { CalibrationValues } from '#climate';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce, peopleCalibrationInForce } from '../calibration/in-force.js';
import { heatOf, liftOf } from '../care/hands-on.js';
import { dayIn, minutesWithin } from '../care/worked-time.js';
import type { IncidentFacts, SiteMember } from '../ports/place-store.js';
import type { WorkedSpan } from '../ports/step-store.js';
import type { WorkRow } from '../ports/work-rows.js';
import type { Stores } from '../ports/work.js';

const HOUR_MS = 3_600_000;
/** Work that is planned to begin within this counts as beginning now. Our own number. */
const BEGINS_NOW_MS = 15 * 60_000;

export interface WorkPeople {
  /** People who do it together: what the rule book asks for, and more where the lift takes more. */
  needed: number;
  /** Too heavy for any number of people. */
  liftingAid: boolean;
  /** Minutes of work in an hour that the heat leaves, 0 to 60; null when nobody has measured it. */
  workMinutesPerHour: number | null;
  /** Minutes of rest in the heat that belong to it. */
  restMinutes: number;
  /** The same in words, for as far as it asks for anything. */
  inWords: Message[];
  /** Who is there by then with the skill, and should not do it. */
  notFor: { personId: string; name: string; reasons: SuitabilityReason[] }[];
}

/** What the people of a list are judged by, read once for it. */
export interface PeopleFacts {
  nowMs: number;
  timeZone: string;
  incident: Pick<IncidentFacts, 'outdoorAirTempC' | 'outdoorRelativeHumidityPct'>;
  members: SiteMember[];
  /** What they worked on in the last hour. */
  worked: WorkedSpan[];
  numbers: PeopleCalibration;
  climate: CalibrationValues;
}

/** Reads them for a site; null when its incident is gone. */
export async function peopleFacts(stores: Stores, call: UseCaseCall, site: { siteId: string; incidentId: string }): Promise<PeopleFacts | null> {
  const incident = await stores.places.incident(site.incidentId);
  if (incident === null) return null;
  const { nowMs } = call.env;
  const members = await stores.places.siteMembers(site.siteId);
  const worked = await stores.steps.workedSpans(site.incidentId, members.map(({ id }) => id), nowMs - HOUR_MS, nowMs);
  return {
    nowMs, incident, members, worked, timeZone: await stores.imports.timeZone(),
    numbers: await peopleCalibrationInForce(stores), climate: await climateCalibrationInForce(stores),
  };
}

/** What one piece of work asks. */
export function workPeople(row: WorkRow, care: CareStep, facts: PeopleFacts): WorkPeople {
  const lift = isLifted(care.step) ? liftOf(care.step, row, row.wetState, facts.climate) : null;
  const heat = heatOf(care, lift, facts.incident, facts.climate);
  const minutes = heat?.workMinutesPerHour ?? 60;
  const restMinutes = minutes > 0 && minutes < 60 ? Math.ceil(care.minutesPerPiece * row.count * (60 / minutes - 1)) : 0;
  const needed = Math.max(1, care.crew, lift?.peopleNeeded ?? 0);
  return {
    needed, restMinutes, liftingAid: lift !== null && lift.peopleNeeded === null, workMinutesPerHour: heat?.workMinutesPerHour ?? null,
    inWords: [...(lift === null ? [] : liftInWords(lift.loadKg, lift.peopleNeeded)), ...(heat === null ? [] : heatInWords(minutes, restMinutes))],
    notFor: notFor(row, { ...care, heat, lift: null }, facts),
  };
}

/** What a lift asks of people; nothing where one of them does it alone. */
export function liftInWords(loadKg: number, needed: number | null): Message[] {
  const kg = loadKg.toFixed(1);
  if (needed === null) return [say('About {kg} kg are lifted at once, too much for any number of people: drain it first, take it in parts, or use a trolley, board or hoist.', { kg })];
  return needed > 1 ? [say('About {kg} kg are lifted at once: {needed} people together, or a trolley, board or hoist.', { kg, needed })] : [];
}

function heatInWords(most: number, rest: number): Message[] {
  if (most <= 0) return [say('It is too hot for this now: nobody does it before it is cooler. Stopping beats finishing the batch.')];
  return most < 60 ? [say('In this heat at most {most} minutes of work in an hour: {rest, plural, one {# minute} other {# minutes}} of rest belong to it. Water, shade and rest come first.', { most, rest })] : [];
}

/** Who lacks the skill is no surprise; who has it and should not, is. Weight, and a heat that stops everybody, are told for all. */
function notFor(row: WorkRow, step: StepAtHand & Pick<CareStep, 'minutesPerPiece'>, facts: PeopleFacts): WorkPeople['notFor'] {
  const atMs = Math.max(facts.nowMs, row.startsAtMs ?? facts.nowMs);
  const heat = step.heat !== null && step.heat.workMinutesPerHour > 0 ? step.heat : null;
  const conditions = { atMs, onDay: dayIn(facts.timeZone, atMs), peopleTogether: 1, liftingAid: false, others: [] };
  return facts.members
    .filter(({ skills, shifts }) => (step.skill === null || skills.includes(step.skill)) && shifts.some(({ startsAtMs: from, endsAtMs: to }) => from <= atMs && atMs < to))
    .flatMap((member) => {
      const judged = mayDo(member, { ...step, heat }, { ...conditions, workedMinutesInHour: workedBy(member.id, atMs, step.minutesPerPiece * row.count, facts) }, facts.numbers);
      return judged.allowed ? [] : [{ personId: member.id, name: member.name, reasons: judged.reasons }];
    });
}

/** Minutes that somebody will have worked in the hour up to the end of the work if they begin now; null for work that begins later. */
function workedBy(personId: string, atMs: number, minutes: number, { nowMs, worked }: PeopleFacts): number | null {
  if (atMs > nowMs + BEGINS_NOW_MS) return null;
  const endMs = nowMs + minutes * 60_000;
  return minutesWithin([...worked.filter((span) => span.personId === personId), { fromMs: nowMs, toMs: endMs }], endMs - HOUR_MS, endMs);
}
