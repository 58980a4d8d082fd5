import type { OpenMatters } from '#custody';

/** What is open about a thing, as every answer names it. */
export function presentMatters({ handOver, disputed, missing }: OpenMatters) {
  return { openHandOver: handOver, locationDisputed: disputed, missing };
}
