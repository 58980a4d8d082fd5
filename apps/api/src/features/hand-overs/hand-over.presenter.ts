import type { z } from 'zod';
import type { HandOverHead, HandOverRecord } from '#application';
import type { HandOverBody, HandOverHeadBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentHandOverHead(head: HandOverHead): z.output<typeof HandOverHeadBody> {
  const { id, incidentId, from, to, giverId, reason, state, endedBy, endedNote, things, version } = head;
  return { id, incidentId, from, to, giverId, reason, state, offeredAt: iso(head.offeredAtMs), expiresAt: iso(head.expiresAtMs), endedAt: isoOrNull(head.endedAtMs), endedBy, endedNote, things, version };
}

export function presentHandOver(handOver: HandOverRecord): z.output<typeof HandOverBody> {
  const lines = handOver.lines.map(({ thing, id, tagCode, itemsInside, state, exception, note }) => ({ thing, id, tag: formatTagCode(tagCode), itemsInside, state, exception, note }));
  return { ...presentHandOverHead(handOver), lines };
}
