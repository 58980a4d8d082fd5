import type { z } from 'zod';
import type { ContainerView, InsideRow } from '#application';
import type { ContainedBody, ContainerBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso } from '../../presenters/time.js';

export function presentContainer({ container, standsAt, around, inside }: ContainerView): z.output<typeof ContainerBody> {
  const { id, incidentId, siteId, kind, description, keeper, matters, version } = container;
  const { items, pieces, containers, volumeL } = inside;
  return {
    id, incidentId, siteId, tag: formatTagCode(container.tagCode), kind, description, keeper, standsAt, insideContainers: around, contents: { items, pieces, containers, volumeL },
    custodySeq: container.seq, openHandOver: matters.handOver, locationDisputed: matters.disputed, missing: matters.missing, lastSeenAt: iso(container.lastSeenAtMs), version,
  };
}

export function presentContained({ tagCode, ...row }: InsideRow): z.output<typeof ContainedBody> {
  return { ...row, tag: formatTagCode(tagCode) };
}
