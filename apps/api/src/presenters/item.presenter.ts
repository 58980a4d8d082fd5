import type { z } from 'zod';
import type { ItemRecord } from '#application';
import { formatTagCode } from '#custody';
import type { ItemBody } from '#contracts';
import { iso, isoOrNull } from './time.js';

export function presentItem(item: ItemRecord): z.output<typeof ItemBody> {
  return {
    id: item.id,
    incidentId: item.incidentId,
    householdId: item.householdId,
    siteId: item.siteId,
    tag: formatTagCode(item.tagCode),
    kind: item.kind,
    count: item.count,
    splitFromId: item.splitFromId,
    description: item.description,
    familyWords: item.familyWords,
    photographRef: item.photographRef,
    photographedOn: item.photographedOn,
    materialClass: item.materialClass,
    sizeClass: item.sizeClass,
    dryingAreaM2: item.areaDm2 / 100,
    freezerVolumeL: item.volumeL,
    dryMassKg: item.dryMassG / 1_000,
    significance: item.significance,
    arrivedAt: iso(item.arrivedAtMs),
    wettedAt: isoOrNull(item.wettedAtMs),
    keeper: item.keeper,
    stage: item.stage,
    custodySeq: item.seq,
    openHandOver: item.matters.handOver,
    locationDisputed: item.matters.disputed,
    missing: item.matters.missing,
    lastSeenAt: iso(item.lastSeenAtMs),
    urgency: item.urgency,
    startBy: isoOrNull(item.startByMs),
    disposition: item.disposition,
    nextStep: item.nextStep,
    waitingForOwner: item.waitingForOwner,
    stabilisedAt: isoOrNull(item.stabilisedAtMs),
    version: item.version,
  };
}
