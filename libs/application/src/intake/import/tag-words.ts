/** What is wrong with the tag of a row, and what to do. */
import { say, type Message } from '#care';
import { TAG_CODE_LENGTH, type TagFault, type TagKind } from '#custody';

/** Why a text is no tag code. */
export function tagFaultInWords({ fault }: TagFault, typed: string): Message {
  switch (fault) {
    case 'empty': return say('Scan the tag, or type its nine characters.');
    case 'character': return say('A tag code is K, C, P or V, then six of the letters B C D F G H J K M N P Q R S T V W X Y Z, then two digits. Read the tag again.');
    case 'length': return say('A tag code has {characters} characters, seven letters and two digits; this has {typed}. Read the tag again.', { characters: TAG_CODE_LENGTH, typed: charactersOf(typed) });
    case 'kind': return say('A tag code starts with K (item), C (container), P (place) or V (person). Read the first letter again.');
    case 'check': return say('The check digits do not fit: a character was misread or two were swapped. Read the tag again; do not guess.');
  }
}

/** As they are counted when a code is read: what only separates them does not count. */
function charactersOf(typed: string): number {
  return typed.replace(/[^\p{L}\p{N}]/gu, '').length;
}

const KINDS: Readonly<Record<TagKind, Message>> = { item: say('an item'), container: say('a container'), place: say('a place'), person: say('a person') };

/** The tag is one of ours, but not of a thing. */
export function wrongKindInWords(kind: TagKind): Message {
  return say('This is the tag of {kind}, not of an item. Tie an item tag to the thing and write its code here.', { kind: KINDS[kind] });
}

/** A fault with the reserved tags that are one slip away: offered, never chosen. */
export function withNearest(fault: Message, nearest: readonly string[]): Message {
  if (nearest.length === 0) return fault;
  return say('{fault} Reserved tags close to it: {tags}. Look at the tag itself before you write one of them.', { fault, tags: nearest.join(', ') });
}
