import type { Keeper } from '#custody';
import type { ScanProblem, ScanResult } from './scan-store.js';

export const SLIP_STATES = ['printed', 'keyed', 'void'] as const;
export type SlipState = (typeof SLIP_STATES)[number];
export const VOID_REASONS = ['unused', 'spoilt', 'lost'] as const;
export type VoidReason = (typeof VOID_REASONS)[number];

/** Slips that were printed for a power cut, with a tag for each. */
export interface PaperKitRecord {
  id: string;
  incidentId: string;
  siteId: string;
  tagBlockId: string;
  slips: number;
  createdAtMs: number;
  createdBy: string;
}

export interface SlipRecord {
  kitId: string;
  slipNo: number;
  tagCode: string;
  state: SlipState;
  fingerprint: string | null;
  itemId: string | null;
  voidReason: VoidReason | null;
  /** When it was written, as the slip says. */
  writtenAtMs: number | null;
  keyedAtMs: number | null;
  /** The person who keyed it. */
  keyedBy: string | null;
}

/** What was keyed from one slip. */
export interface KeyedSlip {
  slipNo: number;
  state: 'keyed' | 'void';
  fingerprint: string;
  itemId: string | null;
  voidReason: VoidReason | null;
  writtenAtMs: number | null;
  keyedAtMs: number;
  keyedBy: string;
  keyedWith: string;
}

/** A station log or place sheet of a kit. Its number is given when the kit is made and never changes. */
export interface PaperSheetRecord {
  sheetNo: number;
  /** The station whose log it is, or the place whose sheet it is. */
  place: Keeper;
}

export const LINE_VOID_REASONS = ['crossed-out', 'unreadable'] as const;
export type LineVoidReason = (typeof LINE_VOID_REASONS)[number];

/**
 * What a written line stands for on record: a passing (`moved`), the result of a step, or a sighting that moved nothing (`seen-again`, `seen-late`;
 * `disputed` where the record says otherwise; `sighted` where the thing has left or was missed, and somebody must look).
 */
export const LINE_BECAME = ['moved', 'step', 'seen-again', 'seen-late', 'disputed', 'sighted'] as const;
export type LineBecame = (typeof LINE_BECAME)[number];

/** Where a line stands on paper. */
export interface LineNumber {
  sheetNo: number;
  /** As somebody wrote it on the sheet; a full sheet goes on on blank paper. */
  part: number;
  lineNo: number;
}

/** What became of a line. */
export interface LineAnswer {
  became: LineBecame | null;
  itemId: string | null;
  containerId: string | null;
  event: ScanResult['event'];
  stepResultId: string | null;
  /** What somebody must look into, although the line is on record. */
  problem: ScanProblem | null;
}

/** A line that was keyed, with its answer; one that was refused leaves none. */
export interface KeyedLine extends LineNumber, LineAnswer {
  state: 'keyed' | 'void';
  voidReason: LineVoidReason | null;
  fingerprint: string;
  /** When it was written, as the line says. */
  writtenAtMs: number | null;
  keyedAtMs: number;
  /** The person who keyed it. */
  keyedBy: string;
  keyedWith: string;
}

export interface PaperKitStore {
  insert(kit: PaperKitRecord, tagCodes: readonly string[], sheets: readonly PaperSheetRecord[]): Promise<void>;
  find(kitId: string): Promise<PaperKitRecord | null>;
  /** As `find`, and nobody else keys its slips until the transaction ends. */
  lock(kitId: string): Promise<PaperKitRecord | null>;
  /** In the order of their numbers. */
  slips(kitId: string): Promise<SlipRecord[]>;
  key(kitId: string, slip: KeyedSlip): Promise<void>;
  /** In the order of their numbers. */
  sheets(kitId: string): Promise<PaperSheetRecord[]>;
  /** What was keyed from its sheets, in the order of sheet, part and line. */
  lines(kitId: string): Promise<KeyedLine[]>;
  keyLine(kit: PaperKitRecord, line: KeyedLine): Promise<void>;
}
