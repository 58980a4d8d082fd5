import { ApiRefusal } from '../api-client.js';

/** Refusals that a busy hall meets: somebody was faster, a place is full or in bad company, an owner said no, a thing went another way. */
const OF_THE_DAY: ReadonlySet<string> = new Set(['wrong_keeper', 'wrong_stage', 'item_terminal', 'capacity_full', 'company_refused', 'consent_missing', 'person_not_suited', 'command_refused']);

/** What the crews did and what they were refused, for the report. */
export class Tally {
  readonly done = new Map<string, number>();
  readonly refused = new Map<string, number>();
  waitedForPlansMs = 0;
  waitedForRoomsMs = 0;
  private readonly samples = new Map<string, string>();

  count(what: string, by = 1): void {
    this.done.set(what, (this.done.get(what) ?? 0) + by);
  }

  /** Notes a refusal of the day. @throws the error itself when it is none: then the demo is wrong, not the hall */
  refusal(error: unknown): ApiRefusal {
    if (!(error instanceof ApiRefusal) || !OF_THE_DAY.has(error.code)) throw error;
    this.refused.set(error.code, (this.refused.get(error.code) ?? 0) + 1);
    if (!this.samples.has(error.code)) this.samples.set(error.code, error.message);
    return error;
  }

  get(what: string): number {
    return this.done.get(what) ?? 0;
  }

  /** The first refusal of each kind in full. */
  firstRefusals(): string[] {
    return [...this.samples.values()];
  }
}
