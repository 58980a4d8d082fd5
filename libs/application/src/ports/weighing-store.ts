import type { WeighingDoubt } from '#climate';

/** What a scale showed with a thing on it. */
export interface WeighingRecord {
  id: string;
  incidentId: string;
  itemId: string;
  scaleKg: number;
  /** Tub, board or hanger that was on the scale with it. */
  tareKg: number;
  /** Of the thing alone. */
  massKg: number;
  /** Smallest step of the scale. */
  resolutionKg: number;
  weighedAtMs: number;
  personId: string | null;
  dryingPlaceId: string | null;
  note: string;
  state: 'accepted' | 'doubtful';
  doubt: WeighingDoubt | null;
  recordedAtMs: number;
}

export interface WeighingStore {
  /** All weighings of an item, oldest first. */
  ofItem(itemId: string): Promise<WeighingRecord[]>;
  /** Keyset page of an item's weighings, newest first; `afterMs` is the time of the last one of the page before. */
  page(itemId: string, limit: number, afterMs: number | null): Promise<WeighingRecord[]>;
  insert(weighing: WeighingRecord): Promise<void>;
  saveDoubts(changed: readonly Pick<WeighingRecord, 'id' | 'doubt'>[]): Promise<void>;
}
