import { formatTagCode, sha256Hex, type Keeper } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { incidentForIntake } from '../custody/open-incident.js';
import { keyOneSlip, type SlipToKey } from '../paper-mode/one-slip.js';
import type { PaperKitRecord, SlipRecord } from '../ports/paper-kit-store.js';
import type { ScanProblem } from '../ports/scan-store.js';
import type { Stores } from '../ports/work.js';
import { keptProblem } from '../scans/one-scan.js';

/** Slips that one request may hold; a kit has as many at most. */
export const SLIPS_AT_ONCE = 500;

export interface KeyPaperSlipsInput {
  kitId: string;
  /** Who keys them. */
  personId: string;
  slips: readonly SlipToKey[];
}

/** What became of one slip. */
export interface SlipVerdict {
  slipNo: number;
  /** `keyed-before`: the same was keyed earlier, with this answer. */
  verdict: 'keyed' | 'void' | 'keyed-before' | 'refused';
  itemId: string | null;
  tag: string | null;
  problem: ScanProblem | null;
}

/**
 * Keys in slips that were written while there was no power. Each is decided by itself, in the order of the times on them, so that a fault
 * of one holds up no other. What is keyed keeps its own time: the event says when it was written, the record when it was keyed and by
 * whom. A slip that was keyed before is answered as before, and never taken in twice. @throws Problem not_found, incident_closed
 */
export async function keyPaperSlips(stores: Stores, call: UseCaseCall, input: KeyPaperSlipsInput): Promise<SlipVerdict[]> {
  const kit = await stores.paperKits.lock(input.kitId);
  if (!kit) throw notFound('paper kit');
  await incidentForIntake(stores, kit.incidentId);
  await personOf(stores, kit.incidentId, input.personId);
  const slips = new Map((await stores.paperKits.slips(kit.id)).map((slip) => [slip.slipNo, slip]));
  const inOrder = input.slips.map((slip, index) => ({ slip, index })).sort((a, b) => (a.slip.writtenAtMs ?? Infinity) - (b.slip.writtenAtMs ?? Infinity) || a.index - b.index);
  const verdicts: SlipVerdict[] = [];
  for (const { slip, index } of inOrder) verdicts[index] = await decide(stores, call, { kit, input, slip, index, printed: slips.get(slip.slipNo) });
  return verdicts;
}

interface OneSlip {
  kit: PaperKitRecord;
  input: KeyPaperSlipsInput;
  slip: SlipToKey;
  index: number;
  printed: SlipRecord | undefined;
}

async function decide(stores: Stores, call: UseCaseCall, one: OneSlip): Promise<SlipVerdict> {
  const { slip, printed } = one;
  try {
    return await stores.attempts.within(() => keyed(stores, call, one));
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { slipNo: slip.slipNo, verdict: 'refused', itemId: null, tag: printed ? formatTagCode(printed.tagCode) : null, problem: keptProblem(error) };
  }
}

async function keyed(stores: Stores, call: UseCaseCall, { kit, input, slip, index, printed }: OneSlip): Promise<SlipVerdict> {
  const pointer = `#/slips/${index}`;
  if (!printed) throw new Problem('reference_unknown', `The kit has slips 1 to ${kit.slips}. Look at the number on the slip, and at the name of the kit beside it.`, { errors: [{ detail: 'is no slip of this kit', code: 'reference_unknown', pointer: `${pointer}/slipNo` }] });
  const tag = formatTagCode(printed.tagCode);
  const fingerprint = fingerprintOf(slip);
  if (printed.state !== 'printed') {
    if (printed.fingerprint === fingerprint) return { slipNo: slip.slipNo, verdict: 'keyed-before', itemId: printed.itemId, tag, problem: null };
    throw new Problem('already_exists', 'Something else was keyed from this slip before; it stands. Look at the number, or change the item that was taken in.', { errors: [{ detail: 'was keyed with other content', code: 'already_exists', pointer: `${pointer}/slipNo` }], members: { itemId: printed.itemId, state: printed.state } });
  }
  const writtenAtMs = slip.writtenAtMs === null ? null : momentOf(call, slip.writtenAtMs, `${pointer}/writtenAt`);
  const itemId = slip.void === null ? (await keyOneSlip(stores, call, { kit, slip, tagCode: printed.tagCode, personId: input.personId, pointer })).id : null;
  const made = { slipNo: slip.slipNo, fingerprint, itemId, writtenAtMs, keyedAtMs: call.env.nowMs, keyedBy: input.personId, keyedWith: call.context.principalId, voidReason: slip.void };
  await stores.paperKits.key(kit.id, { ...made, state: slip.void === null ? 'keyed' : 'void' });
  Object.assign(printed, { state: slip.void === null ? 'keyed' : 'void', fingerprint, itemId } satisfies Partial<SlipRecord>);
  return { slipNo: slip.slipNo, verdict: slip.void === null ? 'keyed' : 'void', itemId, tag, problem: null };
}

/** What a slip says, without the spelling of the request. Contact and words of the family stay out: a digest outlives their erasure and could be guessed at. */
function fingerprintOf(slip: SlipToKey): string {
  const place: Keeper | null = slip.to;
  return sha256Hex(JSON.stringify([slip.slipNo, slip.void, slip.writtenAtMs, slip.household?.code ?? null, slip.description, slip.materialClass, slip.sizeClass, slip.significance, slip.count, slip.water, slip.wettedAtMs, place?.kind ?? null, place?.id ?? null, slip.consents]));
}
