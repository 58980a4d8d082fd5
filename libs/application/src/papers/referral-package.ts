/** What a specialist must know before a thing arrives: how it is, what it can do to people, what the owner allows. */
import { neverPlainly, say, wornPlainly, type Message, type Statement, type TriageOutcome } from '#care';
import type { UseCaseCall } from '../call.js';
import { ownerIsUnknown } from '../claims/unknown-owner.js';
import type { QuoteRecord } from '../ports/quote-store.js';
import type { Stores } from '../ports/work.js';
import { itemDossier, type ItemDossier } from './dossier.js';

export interface ReferralPackage {
  dossier: ItemDossier;
  /** Since it got wet, or since the flood began where nobody knows. */
  hoursWet: number;
  /** Nobody knows when it got wet: the hours count from the beginning of the flood. */
  sinceFlood: boolean;
  /** What hurts people who unpack it, and what they wear. */
  cautions: Statement[];
  ppe: string[];
  never: Statement[];
  apartFrom: Statement[];
  referral: Statement[];
  /** What it means that nobody knows the owner; empty where the owner is known. */
  ownerUnknown: Message[];
  /** Newest first. */
  quotes: QuoteRecord[];
  atMs: number;
}

const HOUR_MS = 3_600_000;

/**
 * Rules whose cautions are about people who touch or open the thing. Those about work in the hall are for the hall; how a specialist works
 * is for the specialist to say. Which rules these are is our own judgement.
 */
const FOR_WHO_OPENS_IT = /^(hazard\.|water\.(black|grey)\.handling$|mould\.(active|dry|unseen)|consent\.black-water|people\.wounds$|fragility\.)/;

/** What whoever opens the parcel must know and wear: hazards first, then water and mould. */
export function protectionOf({ cautions, ppe, apartFrom }: Pick<TriageOutcome, 'cautions' | 'ppe' | 'apartFrom'>): Pick<ReferralPackage, 'cautions' | 'ppe' | 'apartFrom'> {
  const told = cautions.filter(({ ruleId }) => FOR_WHO_OPENS_IT.test(ruleId));
  const hazards = told.filter(({ ruleId }) => ruleId.startsWith('hazard.'));
  return { cautions: [...hazards, ...told.filter((caution) => !hazards.includes(caution))], ppe: wornPlainly(ppe), apartFrom: apartFrom.filter(({ place }) => place === 'bag').map(({ ruleId, text }) => ({ ruleId, text })) };
}

/** For the specialist: nobody can agree to more than that it is kept from getting worse. */
function unownedWords(payer: string | null): Message[] {
  return [
    say('It was found, and nobody knows its owner yet. Only make it stable: keep it from getting worse, change nothing that its owner may want as it is, and ask us before anything else.'),
    payer === null ? say('Nobody pays for it: do nothing that costs, and tell us if it needs more.') : say('{payer} pays for it; no bill goes to an owner who may be found later.', { payer }),
  ];
}

/** @throws Problem not_found */
export async function referralPackage(stores: Stores, call: UseCaseCall, input: { itemId: string }): Promise<ReferralPackage> {
  const dossier = await itemDossier(stores, call, input);
  const { outcome, item, floodAtMs } = dossier;
  const { nowMs } = call.env;
  const wettedAtMs = item.wettedAtMs ?? floodAtMs;
  return {
    dossier, hoursWet: Math.max(0, Math.floor((nowMs - wettedAtMs) / HOUR_MS)), sinceFlood: item.wettedAtMs === null,
    ...protectionOf(outcome), never: neverPlainly(outcome.never), referral: [...outcome.referral],
    ownerUnknown: (await ownerIsUnknown(stores, item.householdId)) ? unownedWords((await stores.steps.openReferral(item.id))?.payer ?? null) : [], quotes: await stores.quotes.ofItem(item.id), atMs: nowMs,
  };
}
