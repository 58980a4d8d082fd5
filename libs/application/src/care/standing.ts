import type { Disposition, StepKind } from '#care';
import { TERMINAL_STAGES } from '#custody';
import { notFound, Problem } from '#contracts';
import type { AssessmentRecord, OverrideRecord, TriageRecord } from '../ports/assessment-store.js';
import type { FamilyMatterRecord } from '../ports/family-matter-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { RecordedOutcome, StepResultRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { refuseClosed } from '../custody/open-incident.js';
import { doneAmong } from './done-steps.js';

/** Everything on record about the care of one locked item. */
export interface Standing {
  assessment: AssessmentRecord;
  results: StepResultRecord[];
  /** Steps done in the present round of work. */
  done: ReadonlySet<StepKind>;
  /** A lead's choice that still stands; null when there is none or something has happened that it did not know of. */
  override: OverrideRecord | null;
  /** A station has put a question to the owner and nobody has recorded an answer. */
  ownerAsked: boolean;
  /** The owner took back a yes while something was under way, and nobody has seen to it yet. */
  stop: FamilyMatterRecord | null;
}

const ENDED: Partial<Record<ItemRecord['stage'], string>> = { released: "released with the owner's agreement, or by decision where nobody knew the owner", merged: 'found to be on record twice and goes on under its other tag' };

/** Locks an item that is still with us, in an incident that is open. @throws Problem not_found, incident_closed, item_terminal */
export async function lockOpenItem(stores: Stores, itemId: string): Promise<ItemRecord> {
  const item = await stores.items.lock(itemId);
  if (!item) throw notFound('item');
  await refuseClosed(stores, item);
  if (TERMINAL_STAGES.includes(item.stage)) {
    throw new Problem('item_terminal', `The item was ${ENDED[item.stage] ?? 'handed back to its household'}; nothing more is recorded about its care. If it is in front of you, put it aside and tell the coordinator.`, { members: { stage: item.stage, keeper: item.keeper } });
  }
  return item;
}

/** Loads how the care of an item stands. The item must be locked. */
export async function standingOf(stores: Stores, item: ItemRecord): Promise<Standing> {
  const assessment = await stores.assessments.latest(item.id);
  if (!assessment) throw new Error('an item that was never assessed');
  const results = await stores.steps.ofItem(item.id);
  return {
    assessment,
    results,
    done: doneAmong(results),
    override: overrideInForce(await stores.assessments.latestOverride(item.id), results),
    ownerAsked: await ownerAsked(stores, item, results),
    stop: await stores.familyMatters.stopOf(item.id),
  };
}

/** The latest triage of an item; every item is triaged when it is taken in. */
export async function latestTriageOf(stores: Stores, item: ItemRecord): Promise<TriageRecord> {
  const triage = await stores.assessments.latestTriage(item.id);
  if (!triage) throw new Error('an item that was never triaged');
  return triage;
}

/** Findings after which a lead decides anew: what the choice rested on is gone. */
export const OVERTURNING: readonly RecordedOutcome[] = ['dye-moved', 'mould-found', 'wetted-again'];
/** Steps with which a choice is carried out. */
export const CARRIES_OUT: readonly StepKind[] = ['freeze', 'refer'];

/**
 * A lead's choice holds until what it rested on is gone: dye or mould was found after it, or the thing got wet again after it was
 * dried, or what it asked for is done and the thing lies frozen or went to a specialist. Choices made while it is away hold for
 * the time after. `choiceStands` (persistence/planning/item-input-sql.ts) says the same in SQL.
 */
export function overrideInForce(latest: OverrideRecord | null, results: readonly Pick<StepResultRecord, 'id' | 'step' | 'outcome'>[]): OverrideRecord | null {
  if (!latest) return null;
  const overtaken = results.some((result) => result.id > latest.id && (OVERTURNING.includes(result.outcome) || (result.outcome === 'done' && CARRIES_OUT.includes(result.step))));
  return overtaken ? null : latest;
}

/** Ids are made in the order of time, which is finer than the clock of the incident. */
async function ownerAsked(stores: Stores, item: ItemRecord, results: readonly StepResultRecord[]): Promise<boolean> {
  const question = results.findLast((result) => result.outcome === 'owner-must-decide');
  if (!question) return false;
  const consents = await stores.consents.ofHousehold(item.householdId);
  return !consents.some((consent) => consent.id > question.id && consent.scope !== 'photograph' && (consent.itemId === null || consent.itemId === item.id));
}

/** The step in which an owner's no found the thing: it is not undone, and its end is recorded, once. Ids are made in the order of time. */
export function wasUnderWay({ stop, results }: Pick<Standing, 'stop' | 'results'>, step: StepKind): boolean {
  return stop?.step === step && !results.some((result) => result.step === step && result.id > stop.id);
}

/** The choice that a new triage follows: a lead's that still stands. */
export function chosenBy(standing: Standing): Disposition | null {
  return standing.override?.disposition ?? null;
}

/** What a triage must know of the work so far. */
export function workSoFar(standing: Standing): { doneSteps: ReadonlySet<StepKind>; ownerAsked: boolean } {
  return { doneSteps: standing.done, ownerAsked: standing.ownerAsked || standing.stop !== null };
}

