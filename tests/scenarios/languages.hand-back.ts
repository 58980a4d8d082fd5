/** What is asked for Spanish of papers, hand-backs and slips; for `languages.spec.ts`. */
import type { Workbench } from '../api/support/workbench.js';
import { wordsOf } from '../unit/documents/pictures.support.js';
import type { Spoken } from './languages.custody.js';

const ES = { 'accept-language': 'es-MX, es;q=0.9' };

/** A document for printing, with its words as the text of a body. */
async function printed(asked: Promise<{ status: number; headers: Record<string, string>; body: unknown }>): Promise<Spoken> {
  const { status, headers, body } = await asked;
  return { status, headers, body: { text: await wordsOf(body as Buffer) }, text: '{}' };
}

/** Each speaking operation of papers and slips, asked for Spanish. A paper for a family is in the family's language unless somebody names one. */
export function handBackOperations(open: () => Workbench): Record<string, () => Promise<Spoken>> {
  const quilt = async () => open().testedQuilt(await open().household());
  const handedBack = async () => {
    const household = await open().household();
    return (await open().handBack(household, [(await open().testedQuilt(household, { description: 'Colcha' })).id]).expect(201)).body.id as string;
  };
  const kit = async () => (await open().network.post(`/v1/sites/${open().incident.site()}/paper-kits`, { slips: 1 }).expect(201)).body.id as string;
  return {
    printHandBackReceipt: async () => receiptWords(await printed(open().network.get(`/v1/hand-backs/${await handedBack()}/receipt-paper?language=es`, ES))),
    printCareSheet: async () => receiptWords(await printed(open().network.get(`/v1/hand-backs/${await handedBack()}/care-sheet?language=es`, ES))),
    printConditionNote: async () => receiptWords(await printed(open().network.get(`/v1/items/${(await quilt()).id}/condition-note?language=es`, ES))),
    getReferralPackage: async () => open().network.get(`/v1/items/${(await quilt()).id}/referral-package`, ES),
    printReferralPackage: async () => receiptWords(await printed(open().network.get(`/v1/items/${(await quilt()).id}/referral-package/paper`, ES))),
    printPaperKit: async () => receiptWords(await printed(open().network.get(`/v1/paper-kits/${await kit()}/print`, ES))),
    keyPaperLogLines: async () => open().network.post(`/v1/paper-kits/${await kit()}/log-lines`, { personId: open().incident.person('P1'), lines: [{ sheetNo: 1, lineNo: 1, void: 'unreadable' }, { sheetNo: 1, lineNo: 2, tag: 'KXXX-XXX-00' }] }, ES),
    keyPaperSlips: async () => open().network.post(`/v1/paper-kits/${await kit()}/keyed-slips`, { personId: open().incident.person('P1'), slips: [{ slipNo: 1, void: 'unused' }] }, ES),
  };
}

/** What people wrote and titles of publications stay as they are, and are full of English words. */
const OURS_IN_ENGLISH = /\b(Receipt for|Condition note|Caring for|Referral to|Paper kit|What was done|When to ask|Before you open|Page \d+ of)\b/;

/** Whole papers hold titles and words of people: only what is ours is looked for. */
function receiptWords(answer: Spoken): Spoken {
  const { text } = answer.body as { text: string[] };
  return { ...answer, body: { text: text.filter((page) => OURS_IN_ENGLISH.test(page)) } };
}
