import { releaseBefore, releaseChanges, RELEASES, NEWEST_RELEASE, type Book, type ReleaseChanges, type ReleaseName } from '#care';
import type { Stores } from '../ports/work.js';
import { bookWith, followed } from '../rule-book/books.js';
import { ruleCounts, type RuleCounts } from '../rule-book/view.js';

/** One release at the defaults of its choices, and what it changed. */
export interface ReleaseView {
  book: Book;
  rules: RuleCounts;
  /** Against the release before it, with that release's book; null for the oldest that the program holds. */
  changes: (ReleaseChanges & { bookBefore: Book }) | null;
}

export interface ReleasesView {
  follows: ReleaseName;
  newest: ReleaseName;
  /** Newest first. */
  releases: ReleaseView[];
}

/** The releases of the rule book that the program holds, each with what it changed and why, and which of them the network follows. */
export async function listRuleBookReleases(stores: Stores): Promise<ReleasesView> {
  const { release } = await followed(stores);
  return { follows: release, newest: NEWEST_RELEASE, releases: RELEASES.toReversed().map(viewOf) };
}

function viewOf(release: ReleaseName): ReleaseView {
  const book = bookWith({ release, choices: {} });
  const before = releaseBefore(release);
  return { book, rules: ruleCounts(book), changes: before === null ? null : { ...releaseChanges(before, release), bookBefore: bookWith({ release: before, choices: {} }) } };
}
