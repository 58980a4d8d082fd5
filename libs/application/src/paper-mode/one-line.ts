/** One line of a station log or place sheet, put on record: a thing that came to a place, or a step that ended. */
import type { StepKind } from '#care';
import { isTagFault, parseTagCode, type Keeper } from '#custody';
import { notFound, Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf } from '../care/claims.js';
import type { SuitabilityOverride } from '../care/suited.js';
import { recordStepResult } from '../commands/record-step-result.js';
import type { LineAnswer, LineBecame, LineNumber, LineVoidReason, PaperKitRecord, PaperSheetRecord } from '../ports/paper-kit-store.js';
import type { ScanVerdict } from '../ports/scan-store.js';
import type { StepOutcome } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { carryOutScan, type NamedScan, type SeenThere } from '../scans/one-scan.js';
import { unknownTag } from '../scans/resolve.js';
import { isLog } from './sheets.js';

/** What stands on a line, as somebody reads it. */
export interface LineToKey extends LineNumber {
  /** Why it holds nothing; null for a line that stands. */
  void: LineVoidReason | null;
  /** The day and time in front of it. */
  writtenAtMs: number | null;
  tag: string | null;
  /** The step that ended; null for a thing that came. */
  step: StepKind | null;
  outcome: StepOutcome | null;
  /** Where it was put down. Of a thing that came: the place of the sheet when null. */
  to: Keeper | null;
  /** Whose hands. */
  personId: string | null;
  withPersonIds: string[];
  liftingAid: boolean;
  note: string;
  override: SuitabilityOverride | null;
}

/** A line with its sheet and what its tag leads to. */
export interface LineOfKit {
  kit: PaperKitRecord;
  sheet: PaperSheetRecord;
  line: LineToKey;
  named: NamedScan['named'];
  pointer: string;
}

/** What a line says, in the words of a scan; its sheet stands for the place where it says none. */
export function asSeen(line: LineToKey, sheet: PaperSheetRecord | undefined): SeenThere {
  const parsed = line.tag === null ? null : parseTagCode(line.tag);
  const container = parsed !== null && !isTagFault(parsed) && parsed.kind === 'container';
  return {
    scanId: null, itemTag: container ? null : line.tag, containerTag: container ? line.tag : null, placeTag: null, place: line.to ?? sheet?.place ?? null, seenAtMs: line.writtenAtMs ?? 0, personId: line.personId, baseSeq: null,
  };
}

/** @throws Problem whatever is wrong with the line; then nothing of it was written */
export async function keyOneLine(stores: Stores, call: UseCaseCall, one: LineOfKit): Promise<LineAnswer> {
  const { line, pointer } = one;
  refuseIncomplete(line, pointer);
  const writtenAtMs = momentOf(call, line.writtenAtMs, `${pointer}/writtenAt`);
  return line.step === null ? moved(stores, call, one) : stepEnded(stores, call, one, line.step, writtenAtMs);
}

function refuseIncomplete(line: LineToKey, pointer: string): void {
  const { step, writtenAtMs, tag, outcome, personId, withPersonIds, liftingAid, note, override } = line;
  const missing = [...(writtenAtMs === null ? ['writtenAt'] : []), ...(tag === null ? ['tag'] : []), ...(step !== null && outcome === null ? ['outcome'] : []), ...(step !== null && personId === null ? ['personId'] : [])];
  const ofSteps = { outcome: outcome !== null, withPersonIds: withPersonIds.length > 0, liftingAid, note: note !== '', override: override !== null };
  const astray = step === null ? Object.entries(ofSteps).flatMap(([name, given]) => (given ? [name] : [])) : [];
  const errors: ProblemError[] = [
    ...missing.map((name) => ({ detail: 'is needed for a line that was written', code: 'missing', pointer: `${pointer}/${name}` })),
    ...astray.map((name) => ({ detail: 'belongs to a step, and the line names none', code: 'step_missing', pointer: `${pointer}/${name}` })),
  ];
  if (errors.length > 0) throw new Problem('command_refused', 'The line lacks what the record needs, or says what belongs to no step. Ask whoever wrote it, or mark it void.', { errors });
}

const BECAME: Record<ScanVerdict, LineBecame> = { applied: 'moved', 'seen-again': 'seen-again', 'seen-late': 'seen-late', disputed: 'disputed', refused: 'sighted' };

/** A thing that came, by the rules for scans: what lies before the record moves nothing, and what speaks against it is kept. */
async function moved(stores: Stores, call: UseCaseCall, { kit, sheet, line, named, pointer }: LineOfKit): Promise<LineAnswer> {
  const { verdict, itemId, containerId, event, problem } = await carryOutScan(stores, call, kit.incidentId, { scan: asSeen(line, sheet), named, pointer }, new Map());
  return { became: BECAME[verdict], itemId, containerId, event, stepResultId: null, problem };
}

async function stepEnded(stores: Stores, call: UseCaseCall, one: LineOfKit, step: StepKind, writtenAtMs: number): Promise<LineAnswer> {
  const { kit, sheet, line, named, pointer } = one;
  const { outcome, personId, withPersonIds, liftingAid, note, to, override } = line;
  if (outcome === null || personId === null) throw new Error('a step without how it ended or by whom, although that was looked at');
  if (!isLog(sheet.place)) throw new Problem('command_refused', 'Steps are written into the log of a station, and this is the sheet of a place. Look at the number of the sheet, or leave the step out.', { errors: [{ detail: 'stands on the sheet of a place', code: 'no_station_log', pointer: `${pointer}/step` }] });
  const itemId = named.itemId;
  if (itemId === null) throw await unknownTag(stores, kit.incidentId, line.tag ?? '', 'item', `${pointer}/tag`);
  const beforeSeq = await refuseOvertaken(stores, itemId, writtenAtMs, pointer);
  const { result, item } = await recordStepResult(stores, call, {
    itemId, step, outcome, disposition: null, personId, withPersonIds, liftingAid, stationId: sheet.place.id, startedAtMs: null, finishedAtMs: writtenAtMs, restMinutes: 0, note, to, override,
  });
  const [event] = item.seq > beforeSeq ? await stores.custody.chain(itemId, item.seq - 1, 1) : [];
  return { became: 'step', itemId, containerId: null, event: event ? { kind: event.kind, seq: event.seq } : null, stepResultId: result.id, problem: null };
}

/**
 * What a step does to the record is true only if nothing came after it: else it would take the thing back to where it was hours ago.
 * Answers the number of its last event. @throws Problem command_refused
 */
async function refuseOvertaken(stores: Stores, itemId: string, writtenAtMs: number, pointer: string): Promise<number> {
  const item = await stores.items.lock(itemId);
  if (!item) throw notFound('item');
  const [last] = await stores.custody.chain(itemId, item.seq - 1, 1);
  const results = await stores.steps.ofItem(itemId);
  const latestMs = Math.max(last?.occurredAtMs ?? -Infinity, ...results.map(({ finishedAtMs }) => finishedAtMs));
  if (writtenAtMs >= latestMs) return item.seq;
  throw new Problem('command_refused', 'Something that happened later is on record for this thing, so the step is not put on record by this line: it would take the thing back. Nothing was changed. Look at the thing; if the step counts, report it by itself (POST /v1/items/{itemId}/step-results).', {
    errors: [{ detail: `lies before the latest on record, ${new Date(latestMs).toISOString()}`, code: 'overtaken', pointer: `${pointer}/writtenAt` }], members: { keeper: item.keeper, stage: item.stage, custodySeq: item.seq },
  });
}
