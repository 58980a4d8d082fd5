/**
 * What must not lie together in one container or on one shelf: the rules of the rule book that keep a thing apart, asked of two things.
 * The rules and their sources are those of `rule-book/mixed-and-mended.rules.ts`: `apart.mould` (own: quarantine carried to what is shared),
 * `apart.black-water` (published: CDC flood water; Washington State Department of Health), `apart.bleeding` (own: "never fold it on
 * itself" carried to its neighbours). That a rule speaks of two things when it holds for one and not for the other is our own reading.
 */
import { MATERIALS, type Family } from './materials.js';
import { say, type Message } from './messages/message.js';
import type { Apart, MaterialClass } from './types.js';

/** Rules that two things may break together. */
export const COMPANY_RULES = ['apart.mould', 'apart.black-water', 'apart.bleeding'] as const;
export type CompanyRule = (typeof COMPANY_RULES)[number];

/** A thing by its latest triage. */
export interface Companion {
  materialClass: MaterialClass;
  apartFrom: readonly Pick<Apart, 'ruleId'>[];
}

export interface CompanyFault<T extends Companion> {
  ruleId: CompanyRule;
  because: Message;
  /** Those already there that it must not lie with. */
  with: T[];
}

const BECAUSE: Readonly<Record<CompanyRule, Message>> = {
  'apart.mould': say('Mould stays by itself: what has mould, or may have it, is not put together with what is free of it.'),
  'apart.black-water': say('Unrinsed things from flood or sewage water are not put together with rinsed and clean ones.'),
  'apart.bleeding': say('A thing whose colour moves lies with nothing that could take its colour.'),
};

/** Surfaces that take up no dye: glass, metal, ceramics, and carriers of sound and picture. Our own judgement. */
const TAKES_NO_COLOUR: ReadonlySet<Family> = new Set<Family>(['inorganic', 'audio-visual']);

/** Why a thing must not come to those that lie there; empty when it may. Each rule once, with all whom it concerns. */
export function companyFaults<T extends Companion>(comer: Companion, lying: readonly T[]): CompanyFault<T>[] {
  return COMPANY_RULES.flatMap((ruleId) => {
    const against = lying.filter((other) => keepsApart(ruleId, comer, other));
    return against.length === 0 ? [] : [{ ruleId, because: BECAUSE[ruleId], with: against }];
  });
}

function keepsApart(ruleId: CompanyRule, one: Companion, other: Companion): boolean {
  if (ruleId !== 'apart.bleeding') return keptApartBy(ruleId, one) !== keptApartBy(ruleId, other);
  return (keptApartBy(ruleId, one) && takesColour(other)) || (keptApartBy(ruleId, other) && takesColour(one));
}

/** True when the rule keeps the thing apart. */
export function keptApartBy(ruleId: CompanyRule, thing: Companion): boolean {
  return thing.apartFrom.some((apart) => apart.ruleId === ruleId);
}

function takesColour({ materialClass }: Companion): boolean {
  return !TAKES_NO_COLOUR.has(MATERIALS[materialClass].family);
}
