/** What stands between us and families, for the drill; see `reads.ts`. */
import { createHash } from 'node:crypto';
import type { FamilyMatterRecord, FamilyMessageRecord, OwnerQuestionRecord, Stores } from '#application';
import { FOUND_ITEM_READS, FOUND_ITEM_WRITES } from './reads.found-items.js';
import type { Foreign, Read } from './reads.js';

const AT = { nowMs: Date.parse('2026-05-09T08:00:00Z') };
const of = (foreign: Foreign, name: string) => foreign.incident.the(name);
const page = 50;
const NO_QUESTION: OwnerQuestionRecord = {
  id: '', incidentId: '', householdId: '', itemId: '', kind: 'other', askedBy: 'person', askerId: '', ownWords: null, answers: ['yes'], amount: null, ifNone: 'hold', askedAtMs: 0, deadlineAtMs: 1, toldAtMs: null, remindedAtMs: null,
  state: 'withdrawn', endedAtMs: 1, answer: null, answeredBy: null, answererId: null, consentId: null, lateAnswer: null, lateAnsweredAtMs: null, version: 1,
};
const NO_MESSAGE: FamilyMessageRecord = { id: '', incidentId: '', householdId: '', template: 'ready', subjectId: '', state: 'given-up', tries: 0, queuedAtMs: 0, nextAtMs: 0, attemptAtMs: null, endedAtMs: 1, channel: null, language: null, recipient: null, linkId: null, failure: 'refused', automatic: false };
const NO_MATTER: FamilyMatterRecord = { id: '', incidentId: '', householdId: '', kind: 'call-asked', itemId: null, questionId: null, messageId: null, consentId: null, step: null, advice: { text: '' }, openedAtMs: 0, settledAtMs: 1, settledBy: null, settlement: null };

export const FAMILY_READS: Record<string, Read<Stores>> = {
  ...FOUND_ITEM_READS,
  'statusLinks.findBySecret': (stores, foreign) => stores.statusLinks.findBySecret(createHash('sha256').update(of(foreign, 'familyLinkPath').slice('/s/'.length)).digest()),
  'statusLinks.lock': (stores, foreign) => stores.statusLinks.lock(of(foreign, 'statusLink')),
  'statusLinks.ofHousehold': (stores, foreign) => stores.statusLinks.ofHousehold(of(foreign, 'household')),
  'ownerQuestions.find': (stores, foreign) => stores.ownerQuestions.find(of(foreign, 'ownerQuestion')),
  'ownerQuestions.lock': (stores, foreign) => stores.ownerQuestions.lock(of(foreign, 'ownerQuestion')),
  'ownerQuestions.ofHousehold': (stores, foreign) => stores.ownerQuestions.ofHousehold(of(foreign, 'household')),
  'ownerQuestions.page': (stores, foreign) => stores.ownerQuestions.page(foreign.incident.id, null, page, null),
  'familyMessages.find': (stores, foreign) => stores.familyMessages.find(of(foreign, 'familyMessage')),
  'familyMessages.lock': (stores, foreign) => stores.familyMessages.lock(of(foreign, 'familyMessage')),
  'familyMessages.ofHousehold': (stores, foreign) => stores.familyMessages.ofHousehold(of(foreign, 'household'), page),
  'familyNews.wishes': (stores, foreign) => stores.familyNews.wishes(of(foreign, 'household')),
  'familyNews.wishInForce': (stores, foreign) => stores.familyNews.wishInForce(of(foreign, 'household')),
  'familyNews.open': (stores, foreign) => stores.familyNews.open(of(foreign, 'household')),
  'familyMatters.lock': (stores, foreign) => stores.familyMatters.lock(of(foreign, 'familyMatter')),
  'familyMatters.page': (stores, foreign) => stores.familyMatters.page(foreign.incident.id, false, page, null),
};

export const FAMILY_WRITES: Record<string, Read<Stores>> = {
  ...FOUND_ITEM_WRITES,
  'statusLinks.revoke': (stores, foreign) => stores.statusLinks.revoke(of(foreign, 'statusLink'), AT.nowMs),
  'statusLinks.setCodeMisses': (stores, foreign) => stores.statusLinks.setCodeMisses(of(foreign, 'statusLink'), 3),
  'statusLinks.renew': (stores, foreign) => stores.statusLinks.renew(of(foreign, 'statusLink'), createHash('sha256').update('ours now').digest()),
  'ownerQuestions.save': (stores, foreign) => stores.ownerQuestions.save({ ...NO_QUESTION, id: of(foreign, 'ownerQuestion') }),
  'familyMessages.save': (stores, foreign) => stores.familyMessages.save({ ...NO_MESSAGE, id: of(foreign, 'familyMessage') }),
  'familyNews.settle': (stores, foreign) => stores.familyNews.settle([of(foreign, 'familyNews')], AT.nowMs, null),
  'familyMatters.settle': (stores, foreign) => stores.familyMatters.settle({ ...NO_MATTER, id: of(foreign, 'familyMatter'), settledBy: foreign.incident.places.person('P1') }),
};
