import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { FileBelonging, FileEvent, FileKind, FileRecord } from '../ports/file-store.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { photographsRefused } from './consent.js';
import { fileLimits, mostBytes } from './limits.js';

export interface BeginUploadInput {
  householdId: string;
  itemId: string | null;
  kind: FileKind;
  event: FileEvent;
  /** Id of the hand-back, assessment or step result; null for the newest assessment or step result of the item. */
  eventId: string | null;
  /** Number of the custody event in the item's record. */
  eventSeq: number | null;
  /** Null: by what the item is. */
  sensitive: boolean | null;
  personId: string | null;
  language: 'en' | 'es' | null;
  bytes: number;
  sha256: string | null;
}

const HOUR_MS = 3_600_000;

/**
 * Begins an upload. Taken in a closed incident too: what a family tells and shows is heard, whatever the state of our records.
 * @throws Problem not_found, reference_unknown, consent_missing, body_too_large, uploads_full
 */
export async function beginUpload(stores: Stores, call: UseCaseCall, asked: BeginUploadInput): Promise<FileRecord> {
  const input = { ...asked, eventId: asked.eventId ?? (await newestOf(stores, asked)) };
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  const limits = fileLimits(call.env);
  const most = mostBytes(limits, input.kind);
  if (input.bytes > most) throw new Problem('body_too_large', `A ${input.kind} may have ${most} bytes at most; this one is announced with ${input.bytes}. Take it with a lower resolution, or send a shorter recording.`, { members: { mostBytes: most } });
  const item = input.itemId === null ? null : await stores.items.find(input.itemId);
  await requireReferences(stores, household, input, item);
  if (input.kind === 'photograph' && (await photographsRefused(stores, household.id, input.itemId))) throw new Problem('consent_missing', 'The owner does not want photographs of this. Record a new word of the owner before any is sent.', { members: { scope: 'photograph' } });
  const { ofHousehold, ofNetwork } = await stores.files.unfinished(household.id);
  if (ofHousehold >= limits.unfinishedOfHousehold || ofNetwork >= limits.unfinishedOfNetwork) throw new Problem('uploads_full', 'Too many uploads are unfinished or wait to be checked. Finish those that are begun, or wait; what is not finished ends by itself.', { members: { unfinished: ofHousehold } });
  const file = newFile(call, household, { ...input, sensitive: input.sensitive ?? readsLikeADocument(item) }, limits.uploadHours);
  await stores.files.insert(file);
  // The look at its end also removes what a broken run may have left outside.
  await stores.outbox.appendAhead({ id: call.env.newId(), incidentId: file.incidentId, kind: 'file.sweep', subjectId: file.id, traceparent: call.context.traceparent }, limits.uploadHours * HOUR_MS);
  return file;
}

async function requireReferences(stores: Stores, household: HouseholdRecord, input: BeginUploadInput, item: ItemRecord | null): Promise<void> {
  const unknown = (member: string, detail: string) => new Problem('reference_unknown', `It names something that is not there: ${member} ${detail}.`, { errors: [{ detail, code: 'reference_unknown', ...placeOf(input, member) }] });
  if (input.itemId !== null && item?.householdId !== household.id) throw unknown('itemId', 'is not an item of this household');
  if (input.personId !== null && (await stores.places.person(input.personId))?.incidentId !== household.incidentId) throw unknown('personId', 'is not a person of this incident');
  const nameless = (input.event === 'assessment' || input.event === 'step-result') && input.eventId === null;
  if (nameless || !(await stores.files.eventKnown(belongingOf(input), input.itemId, household.id))) throw unknown(input.event === 'custody' ? 'eventSeq' : 'eventId', 'is not an event of this');
}

async function newestOf(stores: Stores, { event, itemId }: BeginUploadInput): Promise<string | null> {
  return itemId !== null && (event === 'assessment' || event === 'step-result') ? stores.files.newestEvent(event, itemId) : null;
}

/** Letters, papers, albums: what stands on them is read in a photograph. Whoever takes it may say otherwise. */
function readsLikeADocument(item: ItemRecord | null): boolean {
  return item !== null && (item.materialClass.startsWith('paper-') || item.materialClass === 'album-or-scrapbook' || item.materialClass === 'parchment');
}

/** Words come in a body, the rest of a file in the query. */
function placeOf({ kind }: BeginUploadInput, member: string): { pointer: string } | { parameter: string } {
  return kind === 'words' ? { pointer: `#/${member}` } : { parameter: member };
}

/** What it belongs to, from the one id that the sender gives. The contract sees to it that the right one is there. */
function belongingOf({ event, eventId, eventSeq }: BeginUploadInput): FileBelonging {
  const only = (kind: FileEvent) => (event === kind ? eventId : null);
  const custodySeq = event === 'intake' ? 1 : event === 'custody' ? eventSeq : null;
  return { event, assessmentId: only('assessment'), stepResultId: only('step-result'), handBackId: only('hand-back'), custodySeq };
}

function newFile(call: UseCaseCall, household: HouseholdRecord, input: BeginUploadInput & { sensitive: boolean }, hours: number): FileRecord {
  return {
    id: call.env.newId(), incidentId: household.incidentId, householdId: household.id, itemId: input.itemId, kind: input.kind, ...belongingOf(input), sensitive: input.sensitive, personId: input.personId, language: input.language,
    state: 'receiving', declaredBytes: input.bytes, declaredSha256: input.sha256, offsetBytes: 0, begunAtMs: call.env.nowMs, expiresAtMs: call.env.nowMs + hours * HOUR_MS, receivedAtMs: null, settledAtMs: null, refusal: null,
    mediaType: null, widthPx: null, heightPx: null, durationMs: null, keptBytes: null, removed: [], deletedAtMs: null, deletedBy: null, deletedReason: null, version: 1,
  };
}
