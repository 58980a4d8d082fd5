/** Observations that cannot all be true, as a refusal that names all of them at once. */
import { contradictionsIn, type Assessment, type Contradiction, type TriageContext } from '#care';
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

/** One fault for each contradiction, at the member to correct first; at one that the body holds, where it holds any. */
export function contradictionErrors(contradictions: readonly Contradiction[], places: PlacesInBody, said: ReadonlySet<string> = new Set()): ProblemError[] {
  return contradictions.map(({ code, members, text }) => ({
    detail: text, code: code.replaceAll('-', '_'), pointer: pointerTo(members.find((member) => said.has(member)) ?? members[0] ?? '', places),
  }));
}

/** Refuses what cannot all be true, with every fault. @throws Problem observations_contradict */
export function refuseContradictions(errors: readonly ProblemError[], advice = ''): void {
  if (errors.length === 0) return;
  const what = errors.length === 1 ? 'One thing that was said cannot be true beside the others' : `${errors.length} things that were said cannot be true beside the others`;
  throw new Problem('observations_contradict', `${what}; see errors and correct them together. Nothing was changed.${advice}`, { errors: [...errors] });
}

/**
 * Contradictions that a new look brings in: those that were on record before are not held against somebody who speaks of
 * something else.
 */
export function broughtIn(known: Assessment, observed: Assessment, context: TriageContext, said: ReadonlySet<string>): Contradiction[] {
  const before = new Set(contradictionsIn(known, context).map(({ code }) => code));
  return contradictionsIn(observed, context).filter(({ code, members }) => !before.has(code) || members.some((member) => said.has(member)));
}
