import type { z } from 'zod';
import { momentInWords, type PlannedReferral, type ReferralList } from '#application';
import { neverPlainly, render, say, startByInWords, statementsInLanguage, stepInLanguage, stepPlainly, type Language } from '#care';
import { formatTagCode } from '#custody';
import type { ReferralListBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

const BEFORE_IT_LEAVES = say('Advice to the coordinator: the plan sends nothing. Ask the specialist before a thing leaves, as what they take, and when, is theirs to say; their time here is what they said last. A thing leaves only by a referral that is recorded, with its rules of consent. Nobody is promised an outcome.');

export function presentReferralList(list: ReferralList, language: Language): z.output<typeof ReferralListBody> {
  return {
    incidentId: list.incidentId, at: iso(list.atMs), revision: list.revision && { number: list.revision.number, madeAt: iso(list.revision.createdAtMs) },
    items: list.referrals.map((referral) => presentReferral(referral, language, list.atMs)), standing: render(BEFORE_IT_LEAVES, language),
  };
}

function presentReferral(referral: PlannedReferral, language: Language, atMs: number): z.output<typeof ReferralListBody>['items'][number] {
  const { specialist, fromMs, untilMs, startByMs, stabilised, care, tagCode, description } = referral;
  const sentence = say('{thing} should be with {specialist} at {moment}.', { thing: `${formatTagCode(tagCode)} (${description})`, specialist: specialist.name, moment: momentInWords(fromMs) });
  return {
    itemId: referral.itemId, itemVersion: referral.version, tag: formatTagCode(tagCode), description, count: referral.count, stage: referral.stage,
    keeper: { ...referral.keeper, code: referral.keeperCode, name: referral.keeperName }, specialist, withThemAt: iso(fromMs), benchUntil: iso(untilMs),
    startBy: isoOrNull(startByMs), startByInWords: startByMs === null || stabilised ? null : render(startByInWords(startByMs, atMs), language),
    stepsAhead: referral.stepsAhead, missing: referral.missing.map(({ code, text }) => ({ code, text: render(text, language) })),
    care: care && stepInLanguage(stepPlainly(care), language), never: statementsInLanguage(neverPlainly(referral.never), language), advice: statementsInLanguage(referral.advice, language),
    inWords: render(sentence, language),
  };
}
