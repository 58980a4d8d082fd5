import type { z } from 'zod';
import { wishInWords, type PlanWishView } from '#application';
import { render, type Language } from '#care';
import { formatTagCode } from '#custody';
import type { PlanWishBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentWish(wish: PlanWishView, language: Language): z.output<typeof PlanWishBody> {
  const { withdrawn, lapsed } = wish;
  return {
    id: wish.id, incidentId: wish.incidentId, itemId: wish.itemId, tag: formatTagCode(wish.tagCode), kind: wish.kind, stationId: wish.stationId, stationCode: wish.stationCode, step: wish.step, disposition: wish.disposition,
    notBefore: isoOrNull(wish.notBeforeMs),
    pinned: (wish.pinned ?? []).map(({ step, disposition, stationId, personIds, dryingPlaceId, freezerId, serviceId = null, startsAtMs, endsAtMs }) => ({ step, disposition, stationId, personIds, dryingPlaceId, freezerId, serviceId, startsAt: iso(startsAtMs), endsAt: iso(endsAtMs) })),
    inWords: render(wishInWords(wish), language), reason: wish.reason, wishedBy: { id: wish.wishedBy, name: wish.wishedByName }, wishedAt: iso(wish.wishedAtMs), askedAtStationId: wish.askedAtStationId,
    state: withdrawn !== null ? 'withdrawn' : lapsed !== null ? 'lapsed' : 'stands',
    withdrawn: withdrawn && { at: iso(withdrawn.atMs), by: { id: withdrawn.by, name: withdrawn.byName }, reason: withdrawn.reason },
    lapsed: lapsed && { at: iso(lapsed.atMs), why: render(lapsed.why, language) },
  };
}
