/** What one release of the rule book changed against another, and why: for a person who decides whether to follow it. */
import { rulesOf } from './all-rules.js';
import { choicesOf } from './choices.js';
import type { ChoiceId } from './choices.js';
import { compareReleases, type Held, type ReleaseName } from './releases.js';
import type { Rule } from './rule.js';

export const RELEASE_CHANGE_KINDS = ['added', 'withdrawn', 'altered'] as const;
export type ReleaseChangeKind = (typeof RELEASE_CHANGE_KINDS)[number];

interface Changed {
  kind: ReleaseChangeKind;
  /** The reason that stands with the later of the two releases. */
  why: string;
}

/** A rule that is not what it was; on one side `null` for a rule that came or went. */
export interface RuleOfRelease extends Changed {
  ruleId: string;
  before: Rule | null;
  after: Rule | null;
}

/** A side of a marked choice that came, went, or is another. */
export interface SideOfRelease extends Changed {
  choiceId: ChoiceId;
  optionId: string;
  /** The side in plain words. */
  text: string;
}

/** Everything that differs between two releases, in the order of the later one's book. */
export interface ReleaseChanges {
  from: ReleaseName;
  to: ReleaseName;
  rules: RuleOfRelease[];
  sides: SideOfRelease[];
}

/** Compares two releases that the program holds, either way round. */
export function releaseChanges(from: ReleaseName, to: ReleaseName): ReleaseChanges {
  const forward = compareReleases(from, to) <= 0;
  return {
    from, to,
    rules: differing(new Map(rulesOf(from).map((rule) => [rule.id, rule])), new Map(rulesOf(to).map((rule) => [rule.id, rule])), forward).map(({ key, ...change }) => ({ ruleId: key, ...change })),
    sides: differing(sidesOf(from), sidesOf(to), forward).flatMap(({ kind, why, before, after }) => {
      const side = after ?? before;
      return side === null ? [] : [{ kind, why, choiceId: side.choiceId, optionId: side.id, text: side.text }];
    }),
  };
}

type Side = Held & { choiceId: ChoiceId; id: string; text: string };

/** Sides by name. What is not said of a side is said of its choice; nothing is made anew, so that what did not change is recognised. */
function sidesOf(release: ReleaseName): Map<string, Side> {
  return new Map(
    choicesOf(release).flatMap((choice) =>
      choice.options.map((option): [string, Side] => [`${choice.id}=${option.id}`, sideOf(option, choice)])),
  );
}

const known = new WeakMap<object, Side>();

function sideOf(option: Held & { id: string; text: string }, { id, why, whyEnded }: Held & { id: ChoiceId }): Side {
  const side = known.get(option) ?? { why, whyEnded, ...option, choiceId: id };
  known.set(option, side);
  return side;
}

interface Differing<T> extends Changed {
  key: string;
  before: T | null;
  after: T | null;
}

/** What is not the very same on both sides; entries that a release did not touch are one and the same. */
function differing<T extends Held>(before: ReadonlyMap<string, T>, after: ReadonlyMap<string, T>, forward: boolean): Differing<T>[] {
  const keys = [...new Set([...after.keys(), ...before.keys()])];
  return keys.flatMap((key) => {
    const [was, is] = [before.get(key) ?? null, after.get(key) ?? null];
    return was === is ? [] : [{ key, kind: kindOf(was, is), why: forward ? whyOf(was, is) : whyOf(is, was), before: was, after: is }];
  });
}

function kindOf(before: Held | null, after: Held | null): ReleaseChangeKind {
  if (before === null) return 'added';
  return after === null ? 'withdrawn' : 'altered';
}

/** The reason of the later entry, or why the earlier one ended without another. */
const whyOf = (earlier: Held | null, later: Held | null): string => later?.why ?? earlier?.whyEnded ?? '';
