/** Steps that several things share: which shared steps there are, and what they still take. */
import type { CompiledBatch } from './compile.js';

/** One shared step. It holds its station and crew as long as anybody is in it. */
export interface Batch {
  key: string;
  start: number;
  duration: number;
  station: number;
  crew: readonly number[];
  units: number;
  /** What each of those in it asked for. */
  members: CompiledBatch[];
}

/** The batches of one plan under construction, by what may share. */
export class BatchBook {
  private readonly open = new Map<string, Batch[]>();

  /** Forgets all batches. */
  clear(): void {
    this.open.clear();
  }

  /** The earliest batch in `[from, last]` with room for the step, or null. */
  earliest(need: CompiledBatch, duration: number, from: number, last: number): Batch | null {
    let best: Batch | null = null;
    for (const batch of this.open.get(need.key) ?? []) {
      if (batch.duration !== duration || batch.start < from || batch.start > last || !takes(batch, need)) continue;
      if (best === null || batch.start < best.start) best = batch;
    }
    return best;
  }

  /** A batch at this start and station with room for the step, or null. */
  at(need: CompiledBatch, duration: number, start: number, station: number): Batch | null {
    return (this.open.get(need.key) ?? []).find((batch) => batch.duration === duration && batch.start === start && batch.station === station && takes(batch, need)) ?? null;
  }

  /** Lets a step in or out; true when the batch begins or ends with it, so that its resources must be taken or given back. */
  change(batch: Batch, need: CompiledBatch, enters: boolean): boolean {
    const { units } = need;
    if (enters) {
      batch.members.push(need);
      batch.units += units;
      if (batch.members.length > 1) return false;
      const list = this.open.get(batch.key);
      if (list === undefined) this.open.set(batch.key, [batch]);
      else list.push(batch);
      return true;
    }
    batch.members.splice(batch.members.indexOf(need), 1);
    batch.units -= units;
    if (batch.members.length > 0) return false;
    const list = this.open.get(batch.key)!;
    list.splice(list.indexOf(batch), 1);
    return true;
  }
}

function takes(batch: Batch, { units, mostUnits }: CompiledBatch): boolean {
  const limit = batch.members.reduce((least, member) => Math.min(least, member.mostUnits), mostUnits);
  return batch.units + units <= limit;
}
