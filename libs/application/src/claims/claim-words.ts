/** What is said about found things and claims: to families at the desk, in notices, and to those who compare. */
import { MATERIALS, say, type MaterialClass, type Message } from '#care';
import type { ClaimReason, ClaimState } from '../ports/ownership-store.js';

/** The one sentence for every claim that was not accepted by those who decide: whatever was wrong, it says nothing of it. */
const NOT_ACCEPTED = say('We could not confirm that it belongs to this household, so it stays safely with us. This is no reproach: after a flood nobody remembers everything. The family may claim it again, and may bring photographs or papers that show it.');

const BY_STATE: Record<ClaimState, Message> = {
  open: say('Two people who did not take down these answers will decide. Until then it stays with us and is given to nobody.'),
  granted: say('It belongs to this household on record from now on. It is handed back like any other thing of theirs.'),
  declined: NOT_ACCEPTED,
  withdrawn: say('This claim was taken back. The thing stays with us.'),
};

const BY_REASON: Partial<Record<ClaimReason, Message>> = {
  'another-claim-accepted': say('Another claim on this thing was accepted, so this one has ended. If the family is sure that it is theirs, let a lead look at it with them.'),
};

/** What may be said to the family about their claim. */
export function claimWords({ state, reason }: { state: ClaimState; reason: ClaimReason | null }): Message {
  return (reason === null ? undefined : BY_REASON[reason]) ?? BY_STATE[state];
}

export const COMPARISON_CAUTION = say('Compare in your own mind, without the family and without the other person who decides. A memory may err in a detail and still be true; a guess may hit one. If you are in doubt, do not accept: nothing is lost by that. Never tell a claimant which answers fit.');

const KINDS = {
  textile: { one: say('A thing of cloth was found.'), many: say('Things of cloth were found.') },
  paper: { one: say('A thing of paper was found.'), many: say('Things of paper were found.') },
  picture: { one: say('A photograph, film or picture was found.'), many: say('Photographs, films or pictures were found.') },
  recording: { one: say('A recording or device was found.'), many: say('Recordings or devices were found.') },
  object: { one: say('An object was found.'), many: say('Objects were found.') },
} as const;

type BroadKind = keyof typeof KINDS;

/** So broad that many households have lost such a thing. */
export function broadKindOf(materialClass: MaterialClass): BroadKind {
  const { family } = MATERIALS[materialClass];
  if (family === 'textile') return 'textile';
  if (family === 'paper' || family === 'book') return 'paper';
  if (family === 'photo' || family === 'film' || family === 'painting') return 'picture';
  return family === 'audio-visual' ? 'recording' : 'object';
}

/** Monday of the week (ISO 8601) in which a day lies, both as `2026-05-08`. */
export function weekOf(day: string): string {
  const atMs = Date.parse(`${day}T00:00:00Z`);
  const daysSinceMonday = (new Date(atMs).getUTCDay() + 6) % 7;
  return new Date(atMs - daysSinceMonday * 86_400_000).toISOString().slice(0, 10);
}

/**
 * What may be told in public of a found thing: fixed sentences, with the week and the place of the whole incident put in, and nothing else. It takes
 * neither description nor marks, nor where exactly and by whom it was found, so that it cannot tell them.
 */
export function noticeWords({ materialClass, count, foundOn, area }: { materialClass: MaterialClass; count: number; foundOn: string; area: string }): Message[] {
  const kind = KINDS[broadKindOf(materialClass)];
  return [
    count > 1 ? kind.many : kind.one,
    say('Area: {area}. Week that began on {week}.', { area, week: weekOf(foundOn) }),
    say('If you miss something like it, please come to our desk and tell us about it in your own words. We ask questions that only the owner can answer, and two people decide. We cannot say more here, so that nobody else can claim it.'),
  ];
}
