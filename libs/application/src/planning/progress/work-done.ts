/** What was really done of planned steps, from reports, custody and where things are now. Pure. */
import type { Disposition, StepKind } from '#care';
import type { Beginning, ItemNow, ReportedStep } from '../../ports/plan-progress-store.js';

/** One time that a step of an item was begun. */
export interface WorkDone {
  /** Null where nobody wrote it down and custody does not tell either. */
  startMs: number | null;
  /** Null while it is in work. */
  endMs: number | null;
  /** It ended without success and has to be done again. */
  failed: boolean;
}

const DRYING: StepKind = 'dry';
const FREEZING: StepKind = 'freeze';
/** Recorded when it leaves; what is done there is not ours to time. */
const REFERRING: StepKind = 'refer';
/** Nothing is done to it here any more. */
const GONE: ReadonlySet<ItemNow['stage']> = new Set(['referred-out', 'released', 'handed-back', 'merged']);

/** Looks up what was done with the items of a plan since it was made. */
export class WorkOnItems {
  private readonly items;
  private readonly reports = new Map<string, ReportedStep[]>();
  private readonly beginnings = new Map<string, Beginning[]>();

  constructor({ items, reported, begun }: { items: readonly ItemNow[]; reported: readonly ReportedStep[]; begun: readonly Beginning[] }) {
    this.items = new Map(items.map((item) => [item.id, item]));
    for (const report of reported) put(this.reports, report.itemId, report);
    for (const beginning of begun) put(this.beginnings, beginning.itemId, beginning);
  }

  item(itemId: string): ItemNow | undefined {
    return this.items.get(itemId);
  }

  /**
   * The times that a step was begun and had not ended before a moment, in their order: as reported, and what hangs, lies frozen or
   * is in work at a station now. Hanging begins with custody, as its report comes when it is dry.
   */
  of(itemId: string, step: StepKind, sinceMs: number): WorkDone[] {
    const reports = (this.reports.get(itemId) ?? []).filter((report) => report.step === step && report.finishedAtMs >= sinceMs);
    const ended = reports.map((report): WorkDone => ({ startMs: report.startedAtMs ?? this.startOf(report), endMs: report.finishedAtMs, failed: report.outcome === 'failed' }));
    const open = this.openOf(itemId, step, ended.at(-1)?.endMs ?? -Infinity);
    return open === null ? ended : [...ended, open];
  }

  /** The last time that a step ended well since a moment, whenever it was begun. */
  reportedSince(itemId: string, step: StepKind, sinceMs: number): WorkDone | null {
    const report = (this.reports.get(itemId) ?? []).findLast((one) => one.step === step && one.finishedAtMs >= sinceMs && one.outcome !== 'failed');
    return report === undefined ? null : { startMs: report.startedAtMs ?? this.startOf(report), endMs: report.finishedAtMs, failed: false };
  }

  /** Something was done or found of it after a moment, and it goes another way than the planned one; or it has left. */
  goesOtherwise(itemId: string, planned: Disposition, afterMs: number): boolean {
    const item = this.items.get(itemId);
    if (item === undefined || GONE.has(item.stage)) return true;
    return item.disposition !== null && item.disposition !== planned && this.isBegun(itemId, afterMs);
  }

  /** It is with a specialist, as was planned. */
  isReferred(itemId: string, planned: Disposition): boolean {
    return planned === 'refer' && this.items.get(itemId)?.stage === 'referred-out';
  }

  /** Whether anything was reported or begun of it after a moment. */
  isBegun(itemId: string, afterMs: number): boolean {
    return (this.reports.get(itemId) ?? []).some(({ finishedAtMs }) => finishedAtMs > afterMs) || (this.beginnings.get(itemId) ?? []).some(({ atMs }) => atMs > afterMs);
  }

  /** By custody: the last arrival at that station (for drying: at a rack) before the end, after whatever ended before. */
  private startOf({ itemId, step, stationId, finishedAtMs }: ReportedStep): number | null {
    if (step === REFERRING) return finishedAtMs;
    const before = (this.reports.get(itemId) ?? []).filter((report) => report.finishedAtMs < finishedAtMs).at(-1)?.finishedAtMs ?? -Infinity;
    const own = (this.beginnings.get(itemId) ?? []).filter(({ kind, placeId, atMs }) => atMs <= finishedAtMs && (step === DRYING ? kind === 'drying-started' : kind === 'work-started' && placeId === stationId && atMs >= before));
    return own.at(-1)?.atMs ?? null;
  }

  private openOf(itemId: string, step: StepKind, afterMs: number): WorkDone | null {
    const item = this.items.get(itemId);
    if (item === undefined || item.sinceMs <= afterMs) return null;
    if (step === DRYING && item.stage === 'drying') return { startMs: item.sinceMs, endMs: null, failed: false };
    if (step === FREEZING && item.stage === 'held-frozen') return { startMs: null, endMs: item.sinceMs, failed: false };
    return item.stage === 'in-work' && item.nextStep === step ? { startMs: item.sinceMs, endMs: null, failed: false } : null;
  }
}

function put<T>(map: Map<string, T[]>, key: string, value: T): void {
  const known = map.get(key);
  if (known === undefined) map.set(key, [value]);
  else known.push(value);
}
