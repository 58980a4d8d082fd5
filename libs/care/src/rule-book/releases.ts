/**
 * The releases of the rule book that the program holds side by side, so that a network moves to another one when its lead says so and
 * an old decision can be read by its own rules. What stands in the files without `since` and `until` is in all of them.
 */

/** Oldest first. From the second on they are named after the month in which they came. */
export const RELEASES = ['2026.2', '2026.11'] as const;
export type ReleaseName = (typeof RELEASES)[number];

/** What a new network follows. */
export const NEWEST_RELEASE: ReleaseName = '2026.11';

/** In which releases something stands so. */
export interface Held {
  /** The first release that has it so; left out for what the oldest one has already. */
  since?: ReleaseName;
  /** The last release that has it so: the next one has another of the same id, or none. */
  until?: ReleaseName;
  /** Why it came with `since`, or is no longer what it was. */
  why?: string;
  /** Why it ended with `until`, where nothing took its place. */
  whyEnded?: string;
}

const place = (release: ReleaseName): number => RELEASES.indexOf(release);

/** True for what a release has. */
export function isIn(release: ReleaseName, { since = RELEASES[0], until = NEWEST_RELEASE }: Held): boolean {
  return place(since) <= place(release) && place(release) <= place(until);
}

/** Below zero when the first release came before the second. */
export const compareReleases = (a: ReleaseName, b: ReleaseName): number => place(a) - place(b);

/** The release before this one; null for the oldest that the program holds. */
export const releaseBefore = (release: ReleaseName): ReleaseName | null => RELEASES[place(release) - 1] ?? null;

/** What somebody who has to choose a release is told of it first. */
export const RELEASE_SUMMARIES: Readonly<Record<ReleaseName, string>> = {
  '2026.2': 'The release with which this list begins.',
  '2026.11': 'Advice that stood in the reasons alone now reaches the people who do the work. Contradictions about painted cloth and salt-soaked clay are gone. A caution about generators is new. Leather and plant fibre have hours of their own.',
};

/** Sentences that a release says in other words: the old ones, and what says at least as much in their place. */
export const REWORDED: Readonly<Record<string, string>> = {
  'Never touch the picture side.': 'Never touch the image side while it is wet.',
};
