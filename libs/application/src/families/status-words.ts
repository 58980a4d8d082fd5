/** Where a thing is on its way, for its family: no code of a place, no trade word, no promise. */
import { say, type Message } from '#care';
import type { ItemRecord } from '../ports/item-store.js';

type Seen = Pick<ItemRecord, 'stage' | 'keeper' | 'nextStep' | 'matters' | 'waitingForOwner'>;

const MISSING = say('At this moment we cannot say where it is. We are looking for it. Please speak with us.');
const DISPUTED = say('We are making sure where exactly it lies.');
const PARTNER = say('Another group that we work with is looking after it.');
const ON_THE_WAY = say('It is being carried from one of our places to another.');
const YOURS_TO_SAY = say('It waits for your answer. Meanwhile we keep it as it is, as well as we can.');
const BY_STAGE: Readonly<Record<ItemRecord['stage'], Message>> = {
  waiting: say('It is with us and waits for its turn.'),
  'in-work': say('Somebody is working on it now.'),
  drying: say('It is drying. This can take days.'),
  'held-wet': say('It is kept wet and cool on purpose, because drying it now could harm it.'),
  'held-frozen': say('It is kept frozen. That slows the damage until somebody can work on it.'),
  'referred-out': say('It is with a specialist.'),
  released: say('It was let go, as you agreed.'),
  'handed-back': say('It is back with you.'),
  merged: say('It stood on our list twice by mistake. You find it under its other entry.'),
};
const GOING_BACK: Readonly<Partial<Record<NonNullable<ItemRecord['nextStep']>, Message>>> = {
  pack: say('It is being made ready to go back to you.'),
  'hand-back': say('It is ready to go back to you. We will agree a time with you.'),
};
const GONE: ReadonlySet<ItemRecord['stage']> = new Set(['released', 'handed-back', 'merged']);

/** How it stands, in one sentence; the first that counts. */
export function statusWords(item: Seen): Message {
  if (GONE.has(item.stage)) return BY_STAGE[item.stage];
  if (item.matters.missing) return MISSING;
  if (item.matters.disputed) return DISPUTED;
  if (item.keeper.kind === 'partner-network') return PARTNER;
  if (item.keeper.kind === 'courier') return ON_THE_WAY;
  if (item.stage === 'waiting' && item.waitingForOwner) return YOURS_TO_SAY;
  const back = item.stage === 'waiting' && item.nextStep !== null ? GOING_BACK[item.nextStep] : undefined;
  return back ?? BY_STAGE[item.stage];
}
