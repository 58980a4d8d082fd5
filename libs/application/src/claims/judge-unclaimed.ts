/** Who may decide what becomes of something that nobody claims, and what follows. Pure, over the records as they were loaded. All rules are our own. */
import type { UnclaimedDecision, UnclaimedVoteRecord, UncollectedRecord } from '../ports/uncollected-store.js';
import { ACCEPTANCES, type Actor } from './judge-claim.js';

/** What cannot be undone, and so needs two, both notices, and nobody who claims the thing. */
export const LETS_GO: readonly UnclaimedDecision[] = ['hand-to-authority', 'dispose'];

/** Notices at the desk that stand on record before anything is let go: until then nobody can have known of it. */
export const NOTICES = 2;

export type VoterFault = 'decided-before' | 'key-decided-before';

/** Names are said, keys are held: both count, as for claims. */
export function faultOfVoter(actor: Actor, votes: readonly Pick<UnclaimedVoteRecord, 'personId' | 'principalId'>[]): VoterFault | null {
  if (votes.some(({ personId }) => personId === actor.personId)) return 'decided-before';
  return votes.some(({ principalId }) => principalId === actor.principalId) ? 'key-decided-before' : null;
}

/** One who would keep it is enough to keep it, and so are two who do not agree; null while the second has not spoken. */
export function unclaimedOutcome(votes: readonly Pick<UnclaimedVoteRecord, 'decision'>[]): UnclaimedDecision | null {
  const [first] = votes;
  if (first === undefined) return null;
  if (votes.some(({ decision }) => decision === 'keep-longer' || decision !== first.decision)) return 'keep-longer';
  return votes.length >= ACCEPTANCES ? first.decision : null;
}

/** Of the two one was named for it when the path began. */
export function namedTakesPart(path: Pick<UncollectedRecord, 'deciderId'>, votes: readonly Pick<UnclaimedVoteRecord, 'personId'>[]): boolean {
  return votes.some(({ personId }) => personId === path.deciderId);
}

/** What stands decided about a thing; null while nothing does, or a newer path has begun. `paths` oldest first. */
export function standingDecision<P extends Pick<UncollectedRecord, 'state'>>(paths: readonly P[]): P | null {
  const last = paths.at(-1);
  return last?.state === 'decided' ? last : null;
}
