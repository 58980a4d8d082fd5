import type { FileChange, FileObject, FileRecord } from '#application';
import { at, msOrNull } from './row.js';

export interface FileRow {
  id: string;
  incident_id: string;
  household_id: string;
  item_id: string | null;
  kind: FileRecord['kind'];
  event: FileRecord['event'];
  assessment_id: string | null;
  step_result_id: string | null;
  custody_seq: number | null;
  hand_back_id: string | null;
  sensitive: boolean;
  person_id: string | null;
  language: FileRecord['language'];
  state: FileRecord['state'];
  declared_bytes: number;
  declared_sha256: string | null;
  offset_bytes: number;
  begun_at: Date;
  expires_at: Date;
  received_at: Date | null;
  settled_at: Date | null;
  refusal: FileRecord['refusal'];
  media_type: string | null;
  width_px: number | null;
  height_px: number | null;
  duration_ms: number | null;
  kept_bytes: number | null;
  removed: FileRecord['removed'];
  deleted_at: Date | null;
  deleted_by: string | null;
  deleted_reason: Buffer | null;
  version: number;
}

export const FILE_COLUMNS = `id, incident_id, household_id, item_id, kind, event, assessment_id, step_result_id, custody_seq, hand_back_id, sensitive, person_id, language, state, declared_bytes, declared_sha256,
  offset_bytes, begun_at, expires_at, received_at, settled_at, refusal, media_type, width_px, height_px, duration_ms, kept_bytes, removed, deleted_at, deleted_by, deleted_reason, version`;

export function toFile(row: FileRow): FileRecord {
  return {
    id: row.id, incidentId: row.incident_id, householdId: row.household_id, itemId: row.item_id, kind: row.kind,
    event: row.event, assessmentId: row.assessment_id, stepResultId: row.step_result_id, custodySeq: row.custody_seq, handBackId: row.hand_back_id,
    sensitive: row.sensitive, personId: row.person_id, language: row.language, state: row.state, declaredBytes: row.declared_bytes, declaredSha256: row.declared_sha256,
    offsetBytes: row.offset_bytes, begunAtMs: row.begun_at.getTime(), expiresAtMs: row.expires_at.getTime(), receivedAtMs: msOrNull(row.received_at), settledAtMs: msOrNull(row.settled_at),
    refusal: row.refusal, mediaType: row.media_type, widthPx: row.width_px, heightPx: row.height_px, durationMs: row.duration_ms, keptBytes: row.kept_bytes, removed: row.removed,
    deletedAtMs: msOrNull(row.deleted_at), deletedBy: row.deleted_by, deletedReason: row.deleted_reason, version: row.version,
  };
}

/** In the order of `FILE_COLUMNS`. */
export function fileValues(file: FileRecord): unknown[] {
  return [
    file.id, file.incidentId, file.householdId, file.itemId, file.kind, file.event, file.assessmentId, file.stepResultId, file.custodySeq, file.handBackId, file.sensitive, file.personId, file.language, file.state,
    file.declaredBytes, file.declaredSha256, file.offsetBytes, at(file.begunAtMs), at(file.expiresAtMs), at(file.receivedAtMs), at(file.settledAtMs), file.refusal, file.mediaType, file.widthPx, file.heightPx,
    file.durationMs, file.keptBytes, file.removed, at(file.deletedAtMs), file.deletedBy, file.deletedReason, file.version,
  ];
}

const CHANGEABLE: Readonly<Record<keyof FileChange, string>> = {
  state: 'state', receivedAtMs: 'received_at', settledAtMs: 'settled_at', refusal: 'refusal', mediaType: 'media_type', widthPx: 'width_px', heightPx: 'height_px', durationMs: 'duration_ms',
  keptBytes: 'kept_bytes', removed: 'removed', deletedAtMs: 'deleted_at', deletedBy: 'deleted_by', deletedReason: 'deleted_reason',
};

/** Columns and values of a change; only names of the list above become SQL. */
export function changesOf(change: FileChange): { column: string; value: unknown }[] {
  return (Object.keys(change) as (keyof FileChange)[]).map((name) => {
    const value = change[name];
    return { column: CHANGEABLE[name], value: name.endsWith('AtMs') ? at(value as number | null) : value };
  });
}

export interface ObjectRow {
  incident_id: string;
  file_id: string;
  name: string;
  role: FileObject['role'];
  at_byte: number | null;
  bytes: number;
  media_type: string;
  content_key: Buffer;
  state: FileObject['state'];
}

export const OBJECT_COLUMNS = 'incident_id, file_id, name, role, at_byte, bytes, media_type, content_key, state';

export function toObject(row: ObjectRow): FileObject {
  return { incidentId: row.incident_id, fileId: row.file_id, name: row.name, role: row.role, atByte: row.at_byte, bytes: row.bytes, mediaType: row.media_type, contentKey: row.content_key, state: row.state };
}
