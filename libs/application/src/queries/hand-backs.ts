import type { Language } from '#care';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { Receipt } from '../care/receipt.js';
import { receiptText } from '../care/receipt-text.js';
import type { HandBackRecord } from '../ports/hand-back-store.js';
import type { Stores } from '../ports/work.js';

/** One hand-back with its receipt. */
export async function getHandBack(stores: Stores, _call: UseCaseCall, input: { handBackId: string }): Promise<HandBackRecord> {
  const record = await stores.handBacks.find(input.handBackId);
  if (!record) throw notFound('hand-back');
  return record;
}

/** The receipt as it was given, in plain sentences of a language. */
export async function getHandBackReceipt(stores: Stores, call: UseCaseCall, input: { handBackId: string; language: Language }): Promise<string> {
  const { receipt } = await getHandBack(stores, call, input);
  return receiptText(receipt as Receipt, input.language);
}
