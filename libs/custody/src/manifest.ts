/**
 * Manifests: what was to travel, what was scanned, and what differs, by name. After the promise of airline baggage custody, an
 * inventory at each departure and proof of what changed hands (IATA Resolution 753, the four mandatory points; reliability study
 * 1.1), mapped to our job by ourselves: expected = scanned, or every difference is an exception with a reason.
 */

export interface ManifestCounts {
  expected: readonly string[];
  scanned: readonly string[];
  /** Things that were named as exceptions, with a reason. */
  named: readonly string[];
}

/** Every thing that was expected, scanned or named is in exactly one of these; each is sorted and free of repetition. */
export interface ManifestDifference {
  /** Expected and scanned. */
  asExpected: string[];
  /** Expected, not scanned, and named with a reason. */
  excused: string[];
  /** Expected, neither scanned nor named: nothing leaves before somebody says why. */
  unaccounted: string[];
  /** Scanned though nobody expected it: an exception whether or not it was named. */
  unexpected: string[];
  /** Named though neither expected nor scanned: the name is a mistake. */
  idle: string[];
}

/** Holds what was scanned against what was expected. */
export function manifestDifference({ expected, scanned, named }: ManifestCounts): ManifestDifference {
  const [wasExpected, wasScanned, wasNamed] = [new Set(expected), new Set(scanned), new Set(named)];
  const difference: ManifestDifference = { asExpected: [], excused: [], unaccounted: [], unexpected: [], idle: [] };
  for (const thing of [...new Set([...expected, ...scanned, ...named])].sort()) {
    const place = wasExpected.has(thing) ? (wasScanned.has(thing) ? 'asExpected' : wasNamed.has(thing) ? 'excused' : 'unaccounted') : wasScanned.has(thing) ? 'unexpected' : 'idle';
    difference[place].push(thing);
  }
  return difference;
}

/** True when it may depart: every expected thing was scanned or named, and no name is a mistake. */
export function mayDepart({ unaccounted, idle }: ManifestDifference): boolean {
  return unaccounted.length === 0 && idle.length === 0;
}

/** What came off against what went on; `missing` is looked for, `extra` came from elsewhere. */
export function arrivalDifference(loaded: readonly string[], unloaded: readonly string[]): { arrived: string[]; missing: string[]; extra: string[] } {
  const { asExpected, unaccounted, unexpected } = manifestDifference({ expected: loaded, scanned: unloaded, named: [] });
  return { arrived: asExpected, missing: unaccounted, extra: unexpected };
}

export interface AcceptanceCounts {
  offered: readonly string[];
  /** Null: everything that is not named as an exception. */
  accepted: readonly string[] | null;
  excepted: readonly string[];
}

/** What a receiver's answer leaves open: every line is accepted or excepted, none both, and nothing is answered that was not offered. */
export function acceptanceDifference({ offered, accepted, excepted }: AcceptanceCounts): { taken: string[]; unanswered: string[]; both: string[]; notOffered: string[] } {
  const [wasOffered, wasExcepted] = [new Set(offered), new Set(excepted)];
  const taken = [...new Set(accepted ?? offered.filter((thing) => !wasExcepted.has(thing)))].sort();
  const wasTaken = new Set(taken);
  return {
    taken,
    unanswered: [...wasOffered].filter((thing) => !wasTaken.has(thing) && !wasExcepted.has(thing)).sort(),
    both: taken.filter((thing) => wasExcepted.has(thing)),
    notOffered: [...new Set([...taken, ...excepted])].filter((thing) => !wasOffered.has(thing)).sort(),
  };
}
