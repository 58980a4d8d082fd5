import type { z } from 'zod';
import type { ToldEvent } from '#application';
import type { CustodyEventBody } from '#contracts';
import { iso } from './time.js';

export function presentCustodyEvent(event: ToldEvent): z.output<typeof CustodyEventBody> {
  return {
    itemId: event.itemId,
    seq: event.seq,
    kind: event.kind,
    from: event.from,
    to: event.to,
    stage: event.stage,
    actorId: event.actorId,
    occurredAt: iso(event.occurredAtMs),
    recordedAt: iso(event.recordedAtMs),
    refs: event.refs,
    corrects: event.corrects,
    hashedWords: event.hashedWords ?? null,
    commandId: event.commandId,
    prevHash: event.prevHash,
    hash: event.hash,
    form: event.v,
  };
}
