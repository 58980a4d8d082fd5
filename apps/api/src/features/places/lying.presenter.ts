import type { z } from 'zod';
import type { LyingThing, UnseenItem } from '#application';
import type { LyingThingBody, UnseenItemBody } from '#contracts';
import { formatTagCode } from '#custody';
import { presentMatters } from '../../presenters/matters.presenter.js';
import { iso } from '../../presenters/time.js';

export function presentLying({ thing, id, tagCode, description, keeper, depth, stage, matters, lastSeenAtMs }: LyingThing): z.output<typeof LyingThingBody> {
  return { thing, id, tag: formatTagCode(tagCode), description, keeper, depth, stage, ...presentMatters(matters), lastSeenAt: iso(lastSeenAtMs) };
}

const HOUR_MS = 3_600_000;

export function presentUnseen({ thing, unseenForMs }: { thing: UnseenItem; unseenForMs: number }): z.output<typeof UnseenItemBody> {
  const { itemId, tagCode, description, householdId, stage, keeper, matters, lastSeenAtMs } = thing;
  return { itemId, tag: formatTagCode(tagCode), description, householdId, stage, keeper, ...presentMatters(matters), lastSeenAt: iso(lastSeenAtMs), unseenForH: Math.round((unseenForMs / HOUR_MS) * 10) / 10 };
}
