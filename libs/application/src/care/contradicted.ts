/** Observations that cannot all be true, as a refusal that names all of them at once. */
import { contradictionsIn, render, type Assessment, type Contradiction, type Message, type TriageContext } from '#care';
import { Problem, type ProblemError } from '#contracts';

/** Members of an assessment or of its moment as they are called in a body; the others have one name. */
const NAME_IN_BODY: Readonly<Record<string, string>> = { wettedAtMs: 'wettedAt', nowMs: 'now', floodAtMs: 'floodAt' };
/** Members that say when and where, not what was seen. */
const OF_THE_MOMENT: ReadonlySet<string> = new Set<keyof TriageContext>(['nowMs', 'floodAtMs', 'airTempC', 'doneSteps']);

/** Where a body holds the observations and the moment, as JSON Pointers. */
export interface PlacesInBody {
  observations: string;
  moment: string;
  /** Other names that members have in this body. */
  names?: Readonly<Record<string, string>>;
}

export const AT_THE_TOP: PlacesInBody = { observations: '#', moment: '#' };

/** The place of a member. */
export function pointerTo(member: string, { observations, moment, names = {} }: PlacesInBody): string {
  return `${OF_THE_MOMENT.has(member) ? moment : observations}/${names[member] ?? NAME_IN_BODY[member] ?? member}`;
}

/** A fault as it is told to whoever builds the screen, and to whoever stands before it. */
export interface Fault extends ProblemError {
  inWords: Message;
}

/** A fault from a sentence. */
export function faultOf(inWords: Message, code: string, pointer: string): Fault {
  return { detail: render(inWords, 'en'), code, pointer, inWords };
}

/** One fault for each contradiction, at the member to correct first; at one that the body holds, where it holds any. */
export function contradictionErrors(contradictions: readonly Contradiction[], places: PlacesInBody, said: ReadonlySet<string> = new Set()): Fault[] {
  return contradictions.map(({ code, members, text }) => faultOf({ text }, code.replaceAll('-', '_'), pointerTo(members.find((member) => said.has(member)) ?? members[0] ?? '', places)));
}

/** Refuses what cannot all be true, with every fault and what can be done. @throws Problem observations_contradict */
export function refuseContradictions(faults: readonly Fault[], advice: Message | null = null): void {
  if (faults.length === 0) return;
  const what = faults.length === 1 ? 'One thing that was said cannot be true beside the others' : `${faults.length} things that were said cannot be true beside the others`;
  const errors = faults.map(({ inWords: _, ...error }) => error);
  const inWords = [...faults.map((fault) => fault.inWords), ...(advice === null ? [] : [advice])];
  throw new Problem('observations_contradict', `${what}; see errors and correct them together. Nothing was changed.${advice === null ? '' : ` ${render(advice, 'en')}`}`, { errors, members: { inWords } });
}

/**
 * Contradictions that a new look brings in: those that were on record before are not held against somebody who speaks of
 * something else.
 */
export function broughtIn(known: Assessment, observed: Assessment, context: TriageContext, said: ReadonlySet<string>): Contradiction[] {
  const before = new Set(contradictionsIn(known, context).map(({ code }) => code));
  return contradictionsIn(observed, context).filter(({ code, members }) => !before.has(code) || members.some((member) => said.has(member)));
}
