import { breathingProtectionOf, type Restriction, type Skill } from '#care';
import type { Layout } from './book.js';

/** What a step asks of people. */
export interface Hands {
  crew: number;
  skill: Skill | null;
  barredRestrictions: readonly Restriction[];
  ppe?: readonly string[];
  /** People whom the work list names as not for it. */
  notFor?: readonly string[];
}

/** What a step asks for, with as many people as its lift takes, and without those whom the work list names. */
export function handsFor(care: Hands, people: { needed: number; notFor: readonly { personId: string }[] } | null): Hands {
  return people === null ? care : { ...care, crew: Math.max(care.crew, people.needed), notFor: people.notFor.map(({ personId }) => personId) };
}

/** People of one site and when each is free again; everybody does one thing at a time and only while on shift. */
export class Crew {
  private readonly freeAtMs = new Map<string, number>();

  constructor(private people: Layout['people']) {}

  /** Shifts and people as the layout has them now. */
  renew(people: Layout['people']): void {
    this.people = people;
  }

  /**
   * Finds the hands for a step: the planned people first, then whoever else may do it; those who know least first, so that rare
   * skills stay free. Answers when all of them are free, or null when they are not before `beforeMs`.
   */
  find(hands: Hands, planned: readonly string[], fromMs: number, beforeMs: number): { personIds: string[]; startsAtMs: number } | null {
    const able = this.people
      .filter((person) => isSuited(person, hands, fromMs))
      .map((person) => ({ person, atMs: this.presentFrom(person, Math.max(fromMs, this.freeAtMs.get(person.id) ?? 0)) }))
      .filter((entry): entry is typeof entry & { atMs: number } => entry.atMs !== null && entry.atMs < beforeMs)
      .sort((a, b) => Number(planned.includes(b.person.id)) - Number(planned.includes(a.person.id)) || a.atMs - b.atMs || a.person.skills.length - b.person.skills.length);
    const chosen = able.slice(0, Math.max(1, hands.crew));
    if (chosen.length < Math.max(1, hands.crew)) return null;
    return { personIds: chosen.map(({ person }) => person.id), startsAtMs: Math.max(...chosen.map(({ atMs }) => atMs)) };
  }

  /** True when somebody is on shift in this stretch. */
  isAnybodyThere(fromMs: number, toMs: number): boolean {
    return this.people.some((person) => person.shifts.some(({ startsAt, endsAt }) => Date.parse(startsAt) < toMs && Date.parse(endsAt) > fromMs));
  }

  /** Somebody on shift, with the skill if there is one, whether busy or not: for what takes a moment. Null when nobody is there. */
  anybody(skill: Skill | null, atMs: number): string | null {
    const there = this.people.filter((person) => this.presentFrom(person, atMs) !== null);
    return (there.find((person) => skill !== null && person.skills.includes(skill)) ?? there[0])?.id ?? null;
  }

  /** Somebody on shift who may do the step, whether busy or not; null when nobody is there who may. */
  somebody(hands: Hands, atMs: number): string | null {
    return this.people.find((person) => this.presentFrom(person, atMs) !== null && isSuited(person, hands, atMs))?.id ?? null;
  }

  occupy(personIds: readonly string[], untilMs: number): void {
    for (const id of personIds) this.freeAtMs.set(id, untilMs);
  }

  /** First moment at or after `fromMs` in the shift that runs then; null when nobody is there of that name. */
  private presentFrom(person: Layout['people'][number], fromMs: number): number | null {
    const shift = person.shifts.find(({ startsAt, endsAt }) => Date.parse(endsAt) > fromMs && Date.parse(startsAt) <= fromMs + LOOK_AHEAD_MS);
    return shift === undefined ? null : Math.max(fromMs, Date.parse(shift.startsAt));
  }
}

const LOOK_AHEAD_MS = 60_000;

/** What a crew sees at a glance: skill, what somebody has declared, and whether their mask was fitted. */
function isSuited(person: Layout['people'][number], { skill, barredRestrictions, ppe = [], notFor = [] }: Hands, atMs: number): boolean {
  if (notFor.includes(person.id)) return false;
  if (skill !== null && !person.skills.includes(skill)) return false;
  if (person.restrictions.some((restriction) => barredRestrictions.includes(restriction))) return false;
  const protection = breathingProtectionOf(ppe);
  return protection === 'none' || protection === 'offered' || (person.respiratorFitUntil ?? '') >= new Date(atMs).toISOString().slice(0, 10);
}
