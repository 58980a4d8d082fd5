import type { z } from 'zod';
import { type FileRecord, type FileView, refusalWords, removedWords } from '#application';
import { render, type Language } from '#care';
import type { FileBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentFile({ file, deletedReason }: FileView, language: Language): z.output<typeof FileBody> {
  const { id, incidentId, householdId, itemId, kind, personId, sensitive, state, mediaType, widthPx, heightPx, durationMs, keptBytes, version } = file;
  return {
    id, incidentId, householdId, itemId, kind, event: eventOf(file), personId, sensitive, language: file.language, state, announcedBytes: file.declaredBytes, receivedBytes: file.offsetBytes,
    begunAt: iso(file.begunAtMs), expiresAt: state === 'receiving' ? iso(file.expiresAtMs) : null, receivedAt: isoOrNull(file.receivedAtMs), settledAt: isoOrNull(file.settledAtMs),
    refusal: file.refusal === null ? null : { code: file.refusal, text: render(refusalWords(file.refusal), language) },
    mediaType, widthPx, heightPx, durationS: durationMs === null ? null : durationMs / 1_000, keptBytes,
    removed: file.removed.map((removed) => ({ code: removed, text: render(removedWords(removed), language) })),
    deletedAt: isoOrNull(file.deletedAtMs), deletedBy: file.deletedBy, deletedReason, version,
  };
}

function eventOf({ event, assessmentId, stepResultId, handBackId, custodySeq }: FileRecord): z.output<typeof FileBody>['event'] {
  return { kind: event, id: assessmentId ?? stepResultId ?? handBackId, seq: custodySeq };
}
