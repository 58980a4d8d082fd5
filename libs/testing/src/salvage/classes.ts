/** The five classes of things of the study: how many, how long they dry, how long their clock runs, what is done with them. */

export interface ItemClass {
  name: 'paper' | 'photographs' | 'textiles' | 'wood' | 'mixed';
  share: number;
  /** Drying time in quarter hours, least and most. */
  dryQuarters: readonly [number, number];
  /** Median of the hours from wetting to the end of the clock. */
  clockHours: number;
  freezableShare: number;
  colourTest: boolean;
  /** Rinses, least and most. */
  rinses: readonly [number, number];
  blot: boolean;
  /** Share that is pressed after drying (the word of our steps is `check`); the study gives none, a half is ours. */
  pressShare: number;
  areaFactor: number;
  /** Of the classes whose weights tend to be higher. */
  treasured: boolean;
}

export const CLASSES: readonly ItemClass[] = [
  { name: 'paper', share: 0.35, dryQuarters: [30, 90], clockHours: 60, freezableShare: 1, colourTest: false, rinses: [0, 2], blot: true, pressShare: 0.5, areaFactor: 1, treasured: true },
  { name: 'photographs', share: 0.15, dryQuarters: [12, 40], clockHours: 40, freezableShare: 0.8, colourTest: true, rinses: [3, 3], blot: true, pressShare: 0, areaFactor: 1, treasured: true },
  { name: 'textiles', share: 0.2, dryQuarters: [48, 120], clockHours: 48, freezableShare: 1, colourTest: true, rinses: [3, 3], blot: true, pressShare: 0, areaFactor: 2, treasured: false },
  { name: 'wood', share: 0.15, dryQuarters: [80, 200], clockHours: 96, freezableShare: 0, colourTest: false, rinses: [0, 1], blot: true, pressShare: 0, areaFactor: 1, treasured: false },
  { name: 'mixed', share: 0.15, dryQuarters: [16, 60], clockHours: 120, freezableShare: 0.5, colourTest: false, rinses: [1, 2], blot: false, pressShare: 0, areaFactor: 1, treasured: false },
];

/** Weights and how often they occur. */
export const WEIGHTS = [1, 2, 3, 5, 8, 13, 21] as const;
export const WEIGHT_SHARES = [0.3, 0.25, 0.18, 0.13, 0.08, 0.04, 0.02] as const;
export const IRREPLACEABLE = { weight: 55, share: 0.02 } as const;
