import type { z } from 'zod';
import type { ItemAndEvent, ItemWithMatters } from '#application';
import type { ItemAndEventBody, OpenMatterBody } from '#contracts';
import { presentCustodyEvent } from '../../presenters/custody-event.presenter.js';
import { presentItem } from '../../presenters/item.presenter.js';
import { iso } from '../../presenters/time.js';

export function presentRecorded({ item, event }: ItemAndEvent): { status: number; body: z.output<typeof ItemAndEventBody>; version: number; location: string } {
  return { status: 201, body: { item: presentItem(item), event: presentCustodyEvent(event) }, version: item.version, location: `/v1/items/${item.id}/custody-events` };
}

export function presentOpenMatter({ item, latestClaim }: ItemWithMatters): z.output<typeof OpenMatterBody> {
  if (latestClaim === null) return { item: presentItem(item), latestClaim: null };
  const { seenAtMs, ...claim } = latestClaim;
  return { item: presentItem(item), latestClaim: { ...claim, seenAt: iso(seenAtMs) } };
}
