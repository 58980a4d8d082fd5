import { isTagFault, parseTagCode, sha256Hex } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { openIncidentOf } from '../custody/open-incident.js';
import { asSeen, keyOneLine, type LineToKey } from '../paper-mode/one-line.js';
import type { KeyedLine, LineAnswer, LineNumber, PaperKitRecord, PaperSheetRecord } from '../ports/paper-kit-store.js';
import type { Stores } from '../ports/work.js';
import { holdAll } from '../scans/hold-all.js';
import { keptProblem, type NamedScan } from '../scans/one-scan.js';
import { namedBy, tagsOf } from '../scans/resolve.js';

/** Lines that one request may hold. */
export const LINES_AT_ONCE = 500;

export interface KeyPaperLogLinesInput {
  kitId: string;
  /** Who keys them. */
  personId: string;
  lines: readonly LineToKey[];
  /** Whether the key may record the work of stations; without it lines with a step are refused. */
  mayWork: boolean;
}

/** What became of one line. */
export interface LineVerdict extends LineNumber, LineAnswer {
  /** `keyed-before`: the same was keyed earlier, with this answer. */
  verdict: 'keyed' | 'void' | 'keyed-before' | 'refused';
}

/**
 * Keys in lines of station logs and place sheets that were written while there was no power. Each is decided by itself, in the order of the times in
 * front of them: a thing that came somewhere by the rules for scans, a step that ended as a station reports it. The event keeps the written time and
 * names kit, sheet, line and who keyed it. A line that was keyed before is answered as before. @throws Problem not_found, incident_closed,
 * reference_unknown
 */
export async function keyPaperLogLines(stores: Stores, call: UseCaseCall, input: KeyPaperLogLinesInput): Promise<LineVerdict[]> {
  const kit = await stores.paperKits.lock(input.kitId);
  if (!kit) throw notFound('paper kit');
  await openIncidentOf(stores, kit.incidentId);
  await personOf(stores, kit.incidentId, input.personId);
  const sheets = new Map((await stores.paperKits.sheets(kit.id)).map((sheet) => [sheet.sheetNo, sheet]));
  const keyedLines = new Map((await stores.paperKits.lines(kit.id)).map((line) => [nameOf(line), line]));
  const seen = input.lines.map((line) => asSeen(line, sheets.get(line.sheetNo)));
  const tags = await tagsOf(stores, kit.incidentId, seen);
  const lines = input.lines.map((line, index) => ({ kit, input, line, index, sheet: sheets.get(line.sheetNo), named: namedBy(tags, seen[index] ?? asSeen(line, undefined)), keyedLines }));
  await holdAll(stores, kit.incidentId, lines.filter(({ line }) => line.void === null));
  const verdicts: LineVerdict[] = [];
  for (const one of lines.toSorted(inOrder)) verdicts[one.index] = await decide(stores, call, one);
  return verdicts;
}

interface OneLine {
  kit: PaperKitRecord;
  input: KeyPaperLogLinesInput;
  line: LineToKey;
  index: number;
  sheet: PaperSheetRecord | undefined;
  named: NamedScan['named'];
  keyedLines: Map<string, KeyedLine>;
}

const NOTHING: LineAnswer = { became: null, itemId: null, containerId: null, event: null, stepResultId: null, problem: null };

const nameOf = ({ sheetNo, part, lineNo }: LineNumber): string => `${sheetNo}/${part}/${lineNo}`;

/** By the written times. In one minute a step ends before the thing is put somewhere. */
function inOrder(a: OneLine, b: OneLine): number {
  return (a.line.writtenAtMs ?? Infinity) - (b.line.writtenAtMs ?? Infinity) || Number(a.line.step === null) - Number(b.line.step === null) || a.index - b.index || 0;
}

async function decide(stores: Stores, call: UseCaseCall, one: OneLine): Promise<LineVerdict> {
  const { sheetNo, part, lineNo } = one.line;
  const number = { sheetNo, part, lineNo };
  try {
    return { ...number, ...(await stores.attempts.within(() => keyed(stores, call, one))) };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const { itemId, containerId } = one.named;
    return { ...number, verdict: 'refused', ...NOTHING, itemId, containerId, problem: keptProblem(atLine(error, one.index)) };
  }
}

async function keyed(stores: Stores, call: UseCaseCall, one: OneLine): Promise<Pick<LineVerdict, 'verdict'> & LineAnswer> {
  const { kit, input, line, index, sheet, named, keyedLines } = one;
  const pointer = `#/lines/${index}`;
  if (!sheet) throw new Problem('reference_unknown', 'The kit has no sheet of this number. Look at the number on the sheet, and at the name of the kit beside it.', { errors: [{ detail: 'is no sheet of this kit', code: 'reference_unknown', pointer: `${pointer}/sheetNo` }] });
  if (line.step !== null && !input.mayWork) throw scopeMissing(pointer);
  const fingerprint = fingerprintOf(line);
  const before = keyedLines.get(nameOf(line));
  if (before) return keyedBefore(before, fingerprint, pointer);
  const { sheetNo, part, lineNo } = line;
  const paper = { paperKitId: kit.id, sheetNo: String(sheetNo), part: String(part), lineNo: String(lineNo), keyedBy: input.personId };
  const answer = line.void === null ? await keyOneLine(stores, { ...call, paper }, { kit, sheet, line, named, pointer }) : NOTHING;
  const state = line.void === null ? 'keyed' : 'void';
  const record: KeyedLine = { sheetNo, part, lineNo, ...answer, state, voidReason: line.void, fingerprint, writtenAtMs: line.writtenAtMs, keyedAtMs: call.env.nowMs, keyedBy: input.personId, keyedWith: call.context.principalId };
  await stores.paperKits.keyLine(kit, record);
  keyedLines.set(nameOf(line), record);
  return { verdict: state, ...answer };
}

function keyedBefore(before: KeyedLine, fingerprint: string, pointer: string): Pick<LineVerdict, 'verdict'> & LineAnswer {
  const { became, itemId, containerId, event, stepResultId, problem } = before;
  if (before.fingerprint === fingerprint) return { verdict: 'keyed-before', became, itemId, containerId, event, stepResultId, problem };
  throw new Problem('already_exists', 'Something else was keyed from this line before; it stands. Look at sheet, part and line, or correct the thing that it moved.', {
    errors: [{ detail: 'was keyed with other content', code: 'already_exists', pointer: `${pointer}/lineNo` }], members: { state: before.state, itemId, containerId },
  });
}

/** Members of a scan or a step result by their names on a line. */
const ON_LINES: Readonly<Record<string, string>> = { itemTag: 'tag', containerTag: 'tag', placeTag: 'to', place: 'to', finishedAt: 'writtenAt', occurredAt: 'writtenAt', seenAt: 'writtenAt', returnedAt: 'writtenAt', at: 'to', stationId: 'sheetNo' };

/** What is wrong, where it stands in this request. */
function atLine(problem: Problem, index: number): Problem {
  const { errors, ...extras } = problem.extras;
  if (errors === undefined) return problem;
  return new Problem(problem.code, problem.detail, { ...extras, errors: errors.map((error) => ({ ...error, ...(error.pointer === undefined ? {} : { pointer: pointerAt(error.pointer, index) }) })) });
}

function pointerAt(pointer: string, index: number): string {
  const line = `#/lines/${index}/`;
  const [name = '', ...rest] = pointer.slice(pointer.startsWith(line) ? line.length : 2).split('/');
  return `${line}${[ON_LINES[name] ?? name, ...rest].join('/')}`;
}

/** Recording the work of stations takes a scope of its own, on paper as elsewhere. */
function scopeMissing(pointer: string): Problem {
  return new Problem('scope_missing', 'A line with a step records the work of a station, for which your key lacks the scope station:work. Ask a manager of your network for a key that has it; the line may be keyed then.', { errors: [{ detail: 'needs the scope station:work', code: 'scope_missing', pointer: `${pointer}/step` }], members: { scope: 'station:work' } });
}

/** What a line says, without the spelling of the request and without anybody's own words: a digest outlives their erasure and could be guessed at. */
function fingerprintOf(line: LineToKey): string {
  const parsed = line.tag === null ? null : parseTagCode(line.tag);
  const tag = parsed === null ? null : isTagFault(parsed) ? line.tag : parsed.code;
  const { sheetNo, part, lineNo, writtenAtMs, step, outcome, to, personId, withPersonIds, liftingAid, override } = line;
  return sha256Hex(JSON.stringify([sheetNo, part, lineNo, line.void, writtenAtMs, tag, step, outcome, to?.kind ?? null, to?.id ?? null, personId, [...new Set(withPersonIds)].sort(), liftingAid, override?.personId ?? null]));
}
