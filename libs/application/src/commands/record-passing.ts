import { sameKeeper, type CustodyEvent, type CustodyEventKind, type Keeper, type Stage } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { comesToTreatment } from '../care/owner-refusal.js';
import { latestTriageOf, standingOf } from '../care/standing.js';
import { comesNow, wrongStage } from '../care/step-order.js';
import { claimRoom } from '../custody/capacity.js';
import { holdCompany, refuseCompany } from '../custody/company.js';
import { refuseClosed, refuseClosedAndHold } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { freesDryingSpace, requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** Kinds of passing that a station or driver records as such; the others have commands of their own. */
export const PASSING_KINDS = ['moved', 'work-started', 'work-ended', 'drying-started', 'drying-ended', 'frozen', 'thawed', 'held-wet', 'correction'] as const satisfies readonly CustodyEventKind[];
export type PassingKind = (typeof PASSING_KINDS)[number];

export interface RecordPassingInput {
  itemId: string;
  kind: PassingKind;
  from: Keeper;
  to: Keeper;
  personId: string | null;
  occurredAtMs: number | null;
  reason: string;
  corrects: { seq: number; reason: string } | null;
  /** For a correction: the stage it restores. */
  stage: string | null;
}

/** What it means for the item's clock: drying begun, frozen or held wet is stabilised; thawed starts it again. */
const STABILISES: ReadonlySet<CustodyEventKind> = new Set(['drying-started', 'frozen', 'held-wet']);

/** Records that an item passed from one keeper to another. */
export async function recordPassing(stores: Stores, call: UseCaseCall, input: RecordPassingInput): Promise<{ item: ItemRecord; event: CustodyEvent }> {
  const item = await stores.items.lock(input.itemId);
  if (!item) throw notFound('item');
  await (input.kind === 'correction' ? refuseClosedAndHold : refuseClosed)(stores, item);
  const person = input.personId === null ? null : await personOf(stores, item.incidentId, input.personId);
  await refuseUnconsented(stores, item, input.kind);
  if (input.kind === 'correction') await refuseUnknownTarget(stores, item, input.corrects?.seq ?? 0);
  if (input.kind === 'drying-started' && !leadSaysWhy(person, input.reason)) await refuseOutOfTurn(stores, item, input.from);
  await holdCompany(stores, item, input.to);
  const place = await claimRoom(stores, item, input.to);
  // A correction says where it truly is, whatever lies there; and who does not know where it was is told that.
  const comes = input.kind !== 'correction' && !sameKeeper(item.keeper, input.to) && sameKeeper(item.keeper, input.from);
  if (comes && !leadSaysWhy(person, input.reason)) await refuseCompany(stores, item, input.to, place);
  const refs: Record<string, string> = {};
  if (input.personId !== null) refs['personId'] = input.personId;
  if (input.kind === 'correction' && input.stage !== null) refs['stage'] = input.stage;
  const { corrects } = input;
  const passed = await recordCustody(stores, call, item, {
    kind: input.kind, from: input.from, to: input.to, refs, why: input.reason, occurredAtMs: input.occurredAtMs ?? call.env.nowMs, ...(corrects ? { corrects, correctsInWords: true } : {}),
  });
  const put = await saveClock(stores, call, passed.item, input.kind);
  if (freesDryingSpace(item.keeper, put.keeper)) await requestPlan(stores, call, item.incidentId, PLAN_REASONS.placeFree, 'eased');
  return { event: passed.event, item: put };
}

async function saveClock(stores: Stores, call: UseCaseCall, item: ItemRecord, kind: CustodyEventKind): Promise<ItemRecord> {
  if (!STABILISES.has(kind) && kind !== 'thawed') return item;
  const stabilisedAtMs = kind === 'thawed' ? null : (item.stabilisedAtMs ?? call.env.nowMs);
  if (stabilisedAtMs === item.stabilisedAtMs) return item;
  return { ...item, stabilisedAtMs, version: await stores.items.saveWork(item.id, { stabilisedAtMs }, call.env.nowMs) };
}

/** The word of a lead, which stays in the event with the reason. */
export function leadSaysWhy(person: { skills: string[] } | null, reason: string): boolean {
  return reason !== '' && person !== null && person.skills.includes('lead');
}

/** From where a thing is hung for the first time; what hangs may be hung elsewhere at any time. */
const HUNG_FROM: ReadonlySet<Stage> = new Set(['waiting', 'in-work', 'held-wet']);

/** What is hung before its turn was not tested, rinsed or blotted, or the result of that is lost, and its clock would stop all the same. */
async function refuseOutOfTurn(stores: Stores, item: ItemRecord, from: Keeper): Promise<void> {
  // The custody rules say in better words that it is elsewhere, or in no stage to be hung.
  if (!HUNG_FROM.has(item.stage) || !sameKeeper(item.keeper, from)) return;
  if (comesNow({ item, standing: await standingOf(stores, item), triage: await latestTriageOf(stores, item) }, 'dry')) return;
  const next = item.nextStep === null ? 'Nothing more is to be done on its present way' : `Its next step is \`${item.nextStep}\``;
  throw wrongStage({ item }, `It is not its turn to dry. ${next}; record how that ended first. If it has to hang now, a lead chooses another way for it, or records this event as \`personId\` with a \`reason\`.`);
}

/**
 * A refusal of the owner binds; silence does not stop first aid, it is asked for by triage. What is not to be treated may
 * still be taken in hand: to be looked at, wrapped for the freezer, or packed.
 */
async function refuseUnconsented(stores: Stores, item: ItemRecord, kind: PassingKind): Promise<void> {
  const treats = kind === 'drying-started' || (kind === 'work-started' && comesToTreatment(item));
  const scope = kind === 'frozen' ? 'freeze' : treats ? 'treat' : null;
  if (scope === null) return;
  const { consents } = await stores.consents.inForce(item.householdId, item.id);
  if (consents[scope] === false) throw new Problem('consent_missing', `The owner has refused to let us ${scope} it. Ask again, or follow what triage offers instead.`, { members: { scope } });
}

async function refuseUnknownTarget(stores: Stores, item: ItemRecord, seq: number): Promise<void> {
  const target = await stores.custody.chain(item.id, seq - 1, 1);
  if (target[0]?.seq !== seq) throw new Problem('command_refused', `The item has no custody event ${seq}. Name the event that was wrong.`, { errors: [{ detail: 'names no event of this item', code: 'reference_unknown', pointer: '#/corrects/seq' }] });
}
