import type { z } from 'zod';
import type { ItemDossier, QuoteRecord, ReferralPackage } from '#application';
import { render, statementsInLanguage, translatorFor, type Language, type Statement } from '#care';
import type { ReferralPackageBody, ReferralQuoteBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentQuote({ id, itemId, specialistId, amount, validUntilMs, work, state, basis, consentId, recordedAtMs, decidedAtMs, version }: QuoteRecord): z.output<typeof ReferralQuoteBody> {
  return { id, itemId, specialistId, amount, validUntil: iso(validUntilMs), work, state, basis, consentId, recordedAt: iso(recordedAtMs), decidedAt: isoOrNull(decidedAtMs), version };
}

export function presentPackage(given: ReferralPackage, language: Language): z.output<typeof ReferralPackageBody> {
  const { dossier } = given;
  const { item } = dossier;
  const texts = (statements: readonly Statement[]): string[] => statementsInLanguage(statements, language).map(({ text }) => text);
  const word = (scope: 'refer' | 'treat'): boolean | null => dossier.words.find((said) => said.scope === scope)?.given ?? null;
  return {
    itemId: item.id, tag: item.tag, description: item.description, count: item.count, materialClass: item.materialClass, significance: item.significance, stage: item.stage, at: iso(given.atMs), hoursWet: given.hoursWet, sinceFlood: given.sinceFlood,
    asItCame: presentLook(dossier.first), now: presentLook(dossier.latest),
    tests: dossier.tests.map(({ atMs, test: { colour, solution, method, reading } }) => ({ at: iso(atMs), colour, solution, method, reading })), allColoursTested: dossier.latest.observed.allColoursTested,
    weighings: dossier.weighings.map(({ atMs, massKg, doubtful }) => ({ at: iso(atMs), massKg, doubtful })),
    steps: dossier.steps.map(({ step, outcome, finishedAtMs, hands, station, note }) => ({ step, outcome, finishedAt: iso(finishedAtMs), hands: render(hands, language), station, note })),
    photographs: dossier.photographs.map(({ reference, takenOn }) => ({ reference, takenOn })),
    protection: { cautions: texts(given.cautions), ppe: given.ppe.map(translatorFor(language)), apartFrom: texts(given.apartFrom) }, never: texts(given.never), referral: texts(given.referral),
    consent: { refer: word('refer'), treat: word('treat'), limit: dossier.referLimit }, ownerUnknown: given.ownerUnknown.map((sentence) => render(sentence, language)), quotes: given.quotes.map(presentQuote),
  };
}

function presentLook({ atMs, observed: { wetState, water, mould, fragility, fibre, soil, alreadyBled } }: ItemDossier['first']) {
  return { at: iso(atMs), wetState, water, mould, fragility, fibre, soil: soil ?? ('unknown' as const), alreadyBled };
}
