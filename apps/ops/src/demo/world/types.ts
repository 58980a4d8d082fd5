import type { Fragility, MaterialClass, Significance, WetState } from '#care';
import type { StandardItemKind } from '#climate';

/** The two networks of the demo, and their sites. */
export type NetworkKey = 'valley' | 'bank';
export type SiteCode = 'DYEWORKS' | 'SCHOOL' | 'FISHHALL';

/** How a thing comes into the program: typed at the door, keyed in later from a paper slip, or in somebody's table. */
export type Way = 'door' | 'slip' | 'file';

/** What a family decided at the door; null was not asked. */
export interface FamilyConsents {
  treat: boolean | null;
  freeze: boolean | null;
  refer: boolean | null;
  release: boolean | null;
}

export interface DemoHousehold {
  code: string;
  network: NetworkKey;
  site: SiteCode;
  language: 'en' | 'es';
  contact: { name: string; phone: string; email: string; address: string };
  consents: FamilyConsents;
  arrivedAtMs: number;
  way: Way;
}

/** One thing or counted lot as it truly is; the program only learns what people tell it. */
export interface DemoThing {
  /** Ours, never sent. */
  key: string;
  household: string;
  network: NetworkKey;
  site: SiteCode;
  way: Way;
  arrivedAtMs: number;
  wettedAtMs: number;
  object: string;
  /** The everyday word that a volunteer writes into a column for the material. */
  materialWord: string;
  familyWords: string;
  photographRef: string;
  count: number;
  materialClass: MaterialClass;
  sizeClass: StandardItemKind;
  significance: Significance;
  family: 'photograph' | 'paper-or-book' | 'textile' | 'other';
  /** What an assessor will see. */
  wetState: WetState;
  fragility: Fragility;
  onlyCopy: boolean;
  highMarketValue: boolean;
  mouldy: boolean;
  colours: string[];
}

export interface DemoWorld {
  seed: number;
  scale: number;
  households: DemoHousehold[];
  /** All that queue on the first morning, in order of arrival. */
  things: DemoThing[];
  /** The 240 prints that come in the night. */
  lateLot: DemoThing;
  /** The wedding quilt of the grandmother who phones. */
  weddingQuilt: DemoThing;
}
