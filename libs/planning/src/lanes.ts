/**
 * Which unit of a station each piece of work takes, for a picture: interval colouring. Taken by beginning, each gets the lowest unit
 * that is free; that needs no more units than there is work at once (interval partitioning, Kleinberg and Tardos, Algorithm
 * Design, section 4.1; from memory). A plan holds no unit for a piece of work, only that there are enough.
 */

/** A lane for each `[from, to)`, in the order given, from 0. Equal beginnings are taken in the order given; one without length takes no time but has a lane. */
export function lanesOf(spans: readonly { from: number; to: number }[]): number[] {
  const lanes = spans.map(() => 0);
  const freeFrom: number[] = [];
  const order = spans.map((_, index) => index).sort((a, b) => spans[a]!.from - spans[b]!.from || a - b);
  for (const index of order) {
    const { from, to } = spans[index]!;
    const free = freeFrom.findIndex((end) => end <= from);
    const lane = free === -1 ? freeFrom.length : free;
    freeFrom[lane] = Math.max(from, to);
    lanes[index] = lane;
  }
  return lanes;
}
