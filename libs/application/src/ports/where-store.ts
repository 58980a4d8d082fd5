import type { Companion } from '#care';
import type { Keeper, OpenMatters, Stage } from '#custody';

/** One step on the way from a thing to the place where it is: first who keeps the thing, then who keeps that, and so on. */
export interface WhereStep {
  keeper: Keeper;
  /** Code of the layout, tag of a container; empty where there is none. */
  code: string;
  name: string;
  siteName: string | null;
}

/** A thing with where it is. */
export interface Whereabouts {
  itemId: string;
  tagCode: string;
  description: string;
  householdId: string;
  householdCode: string;
  photographRef: string;
  photographedOn: string | null;
  stage: Stage;
  version: number;
  matters: OpenMatters;
  lastSeenAtMs: number;
  /** Since when its keeper keeps it, as was said. */
  sinceMs: number;
  /** From its keeper outwards; one at least. */
  steps: WhereStep[];
}

/** What the words of a question may mean: one of each group must stand with the thing. */
export type WordGroups = readonly (readonly string[])[];

export interface FoundItems {
  /** Newest first. */
  itemIds: string[];
  /** There may be more than were looked at or asked for. */
  more: boolean;
}

/** One thing at a place, or in a container there. */
export interface LyingThing {
  thing: 'item' | 'container';
  id: string;
  tagCode: string;
  description: string;
  /** What keeps it: the place, or a container. */
  keeper: Keeper;
  /** 1 at the place itself, 2 in a container there, and so on. */
  depth: number;
  stage: Stage | null;
  matters: OpenMatters;
  lastSeenAtMs: number;
}

/** A thing that was not seen for longer than its stage allows. */
export interface UnseenItem {
  itemId: string;
  tagCode: string;
  description: string;
  householdId: string;
  stage: Stage;
  keeper: Keeper;
  matters: OpenMatters;
  lastSeenAtMs: number;
}

/** Before when a thing of each stage was last seen to be called unseen, epoch milliseconds. */
export type UnseenBefore = Partial<Record<Stage, number>>;

/** A thing that lies somewhere, as the rules about company need it. */
export type LyingCompanion = Companion & {
  itemId: string;
  tagCode: string;
  /** The things with which it may share a bath; null for none. */
  bathGroup: string | null;
  /** It is in hand and its next step is to be rinsed. */
  inBath: boolean;
};

export interface WhereStore {
  /** The words of a text as things are found by them. */
  words(text: string): Promise<string[]>;
  /** Things whose words answer all groups, exactly or, where nothing does, by their beginning; a bounded look. */
  byWords(incidentId: string, groups: WordGroups, limit: number): Promise<FoundItems>;
  byHousehold(incidentId: string, codes: readonly string[], limit: number): Promise<FoundItems>;
  /** Where things are, through containers and vehicles; in the order of the ids given, absent ones left out. */
  whereabouts(incidentId: string, itemIds: readonly string[]): Promise<Whereabouts[]>;
  /** What lies at a place, in the containers there too; in the order of ids. */
  contents(keeper: Keeper, limit: number, afterId: string | null): Promise<LyingThing[]>;
  /** What a place keeps, in containers that are there too, by its latest triage; what lies openly first, then in the order of ids. */
  companions(keeper: Keeper, limit: number): Promise<LyingCompanion[]>;
  /** One thing in the same way, with no wall around it; null when it was never triaged. */
  companion(itemId: string): Promise<LyingCompanion | null>;
  /** The longest unseen first; `after` is exclusive. */
  unseen(incidentId: string, before: UnseenBefore, limit: number, after: { lastSeenAtMs: number; itemId: string } | null): Promise<UnseenItem[]>;
  /** How many there are, and of how many households. */
  countUnseen(incidentId: string, before: UnseenBefore): Promise<{ items: number; households: number }>;
}
