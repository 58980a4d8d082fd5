import type { Refusal, Removed } from '../files/words.js';

export const FILE_KINDS = ['photograph', 'voice', 'words'] as const;
export type FileKind = (typeof FILE_KINDS)[number];
export const FILE_EVENTS = ['intake', 'assessment', 'step-result', 'custody', 'hand-back', 'own'] as const;
export type FileEvent = (typeof FILE_EVENTS)[number];
export const FILE_STATES = ['receiving', 'received', 'kept', 'refused', 'expired', 'deleted'] as const;
export type FileState = (typeof FILE_STATES)[number];
export type ObjectRole = 'part' | 'full' | 'medium' | 'small' | 'voice' | 'words';

/** What a file belongs to. Intake is the first event of the item's record. */
export interface FileBelonging {
  event: FileEvent;
  assessmentId: string | null;
  stepResultId: string | null;
  custodySeq: number | null;
  handBackId: string | null;
}

export interface FileRecord extends FileBelonging {
  id: string;
  incidentId: string;
  householdId: string;
  itemId: string | null;
  kind: FileKind;
  sensitive: boolean;
  personId: string | null;
  /** Of written words. */
  language: 'en' | 'es' | null;
  state: FileState;
  declaredBytes: number;
  declaredSha256: string | null;
  offsetBytes: number;
  begunAtMs: number;
  expiresAtMs: number;
  receivedAtMs: number | null;
  settledAtMs: number | null;
  refusal: Refusal | null;
  mediaType: string | null;
  widthPx: number | null;
  heightPx: number | null;
  durationMs: number | null;
  keptBytes: number | null;
  removed: Removed[];
  deletedAtMs: number | null;
  deletedBy: string | null;
  /** Sealed for the household; `personalField('file.deleted_reason', id)`. */
  deletedReason: Uint8Array | null;
  version: number;
}

export interface FileObject {
  fileId: string;
  incidentId: string;
  name: string;
  role: ObjectRole;
  /** Where a part begins in the upload; null for anything else. */
  atByte: number | null;
  bytes: number;
  mediaType: string;
  /** Sealed for the household; `personalField('file_object.content_key', name)`. */
  contentKey: Uint8Array;
  state: 'writing' | 'there' | 'dropped';
}

/** What may change of a file once it began. */
export type FileChange = Partial<Pick<FileRecord, 'state' | 'receivedAtMs' | 'settledAtMs' | 'refusal' | 'mediaType' | 'widthPx' | 'heightPx' | 'durationMs' | 'keptBytes' | 'removed' | 'deletedAtMs' | 'deletedBy' | 'deletedReason'>>;

export interface FileStore {
  insert(file: FileRecord): Promise<void>;
  find(id: string): Promise<FileRecord | null>;
  /** Locks the file until the transaction ends. */
  lock(id: string): Promise<FileRecord | null>;
  save(id: string, change: FileChange): Promise<void>;
  /** Moves the upload on, only from where it is expected to stand; answers false when it stands elsewhere or is no upload any more. */
  advance(id: string, fromByte: number, toByte: number): Promise<boolean>;
  /** Of one item or of a whole household, oldest first; kept ones only, or all. */
  page(of: { itemId: string } | { householdId: string }, everyState: boolean, limit: number, after: string | null): Promise<FileRecord[]>;
  /** Every file of a household that is not deleted. */
  ofHousehold(householdId: string): Promise<FileRecord[]>;
  /** Uploads that are not settled, of the household and of the whole network. */
  unfinished(householdId: string): Promise<{ ofHousehold: number; ofNetwork: number }>;
  /** True when the event is one of the item (or of the household, for a hand-back). */
  eventKnown(belonging: FileBelonging, itemId: string | null, householdId: string): Promise<boolean>;
  /** Id of the newest assessment or step result of an item; null where there is none. */
  newestEvent(event: 'assessment' | 'step-result', itemId: string): Promise<string | null>;
  /** Writes down that bytes are about to be put under these names. */
  register(objects: readonly FileObject[]): Promise<void>;
  objects(fileId: string): Promise<FileObject[]>;
  /** Of names that are being written; answers how many it found so. */
  confirm(names: readonly string[]): Promise<number>;
  /** Says that what lies under the names is to be removed. */
  drop(names: readonly string[]): Promise<void>;
  /** Every object of the files; with parts only, what is kept stays. */
  dropOf(fileIds: readonly string[], partsOnly: boolean): Promise<void>;
  /** Names of a file to remove: dropped ones, and those that were being written longer ago than this in real time. */
  removable(fileId: string, writingForMs: number): Promise<string[]>;
  /** Strikes names whose bytes are gone. */
  forget(names: readonly string[]): Promise<void>;
}
