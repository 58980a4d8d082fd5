/** One helpful sentence or two for each refusal: what is the case, and what to do. Kinds and stages only, never ids. */
import { keeperPhrase } from './keeper.js';
import { KIND_RULES, WAY_BACK, kindInsteadOfMoved, type RequiredRef } from './stage-rules.js';
import type { CustodyEventKind, Keeper, KeeperKind, Stage } from './types.js';

/** `a, b or c`. */
export function orList(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} or ${words[words.length - 1] ?? ''}`;
}

/** For `wrong_keeper`: who holds it on record, who was named, and how to settle it. */
export function wrongKeeperText(holder: Keeper | null, named: Keeper | null): string {
  if (holder === null) return 'Nobody holds this item on record yet, so `from` must be null for its first event.';
  const present = keeperPhrase(holder.kind);
  const claim = named === null ? '`from` names nobody' : named.kind === holder.kind ? 'you named another of that kind' : `you named ${keeperPhrase(named.kind)}`;
  return `On record ${present} holds this item, but ${claim}. Look at where the item really is, read its record again, and send the event with the present keeper as \`from\`; if the record is wrong, send a correction.`;
}

/** For `wrong_stage`: the stage it is in, the stages the event needs, and the way out of the present one. */
export function wrongStageText(kind: CustodyEventKind, stage: Stage): string {
  const from = KIND_RULES[kind].from;
  const needed = typeof from === 'string' ? '' : ` It can follow ${orList(from)}.`;
  const way = WAY_BACK[stage];
  const advice = way === undefined || way === kind ? ' Read the item again and choose the event that fits what happened.' : ` Record \`${way}\` first.`;
  return `\`${kind}\` cannot follow while the item is ${stage}.${needed}${advice}`;
}

/** For `keeper_kind_not_allowed`: who may receive it, and the right kind of event when `moved` was the wrong one. */
export function keeperKindText(kind: CustodyEventKind, stage: Stage, to: KeeperKind, allowed: readonly KeeperKind[]): string {
  if (kind === 'moved') {
    const instead = kindInsteadOfMoved(stage, to);
    if (instead !== null) return `\`moved\` does not take an item that is ${stage} to ${keeperPhrase(to)}. Use \`${instead}\`, which also records what happens to the item there.`;
  }
  const who = orList(allowed.map(keeperPhrase));
  const hint = KIND_RULES[kind].stage === 'named' ? ' Name the stage in `refs.stage`, or change the keeper to fit it.' : ' Change `to`, or choose the event that fits what happened.';
  return `After \`${kind}\` the item is ${stage}, and then only ${who} can hold it; you named ${keeperPhrase(to)}.${hint}`;
}

/** For a reference that is absent: what it is and where it comes from. */
export function missingRefText(ref: RequiredRef, kind: CustodyEventKind): string {
  if (ref === 'consentId') return `\`${kind}\` needs the owner's recorded agreement: record it with the household first and send its id as \`refs.consentId\`.`;
  if (ref === 'handBackId') return `\`${kind}\` needs a hand-back record (receipt, condition note, storage advice): make it first and send its id as \`refs.handBackId\`.`;
  if (ref === 'splitTo') return `\`${kind}\` needs the part that came out of the lot: send the id of another item as \`refs.splitTo\`.`;
  if (ref === 'pieces' || ref === 'left') return `\`${kind}\` needs whole numbers: the pieces of the part as \`refs.pieces\` and the pieces that stay as \`refs.left\`, each 1 or more.`;
  if (ref === 'splitFrom') return `\`${kind}\` needs the lot that this item came out of: send the id of another item as \`refs.splitFrom\`.`;
  return `\`${kind}\` needs ${REF_WORDS[ref]}: send it as \`refs.${ref}\`.`;
}

/** What each further reference stands for, in a sentence. */
const REF_WORDS: Record<Exclude<RequiredRef, 'consentId' | 'handBackId' | 'splitTo' | 'pieces' | 'left' | 'splitFrom'>, string> = {
  handOverId: 'the id of the hand-over',
  offeredKind: 'the kind of keeper that is to receive it',
  offeredId: 'the id of the keeper that is to receive it',
  outcome: 'how the hand-over ended',
  claimedKind: 'the kind of keeper where it is said to be',
  claimedId: 'the id of the keeper where it is said to be',
  personId: 'the person who has it in front of them',
  tagWas: 'the code on the tag before',
  tagIs: 'the code on the new tag, which differs from the one before',
  mergedInto: 'the id of the other item, whose record goes on and which `to` names as well',
  mergedFrom: 'the id of the other item, whose record ends',
  otherHead: 'the last hash of the record that ends, 64 hexadecimal digits',
};
