import { companyFaults, keptApartBy, say, type CompanyFault, type Companion } from '#care';
import { formatTagCode, sameKeeper, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { LyingCompanion } from '../ports/where-store.js';
import type { Stores } from '../ports/work.js';

/** Things that a refusal names; it counts them all. Own choice. */
const NAMED = 10;
/** Things of a place that are looked at; a container or shelf holds fewer. Own choice. */
const LOOKED_AT = 2_000;

const CLEAN_ZONE = say('What has mould, or may have it, does not go into the clean zone.');

/** Places where things touch or lie over each other. What hangs has air around it, and what is frozen lies in its own parcel. */
const SHARED: ReadonlySet<Keeper['kind']> = new Set(['container', 'shelf']);

/** Keeps a container as it is until the transaction ends, so that two things that must not lie together cannot come at once; a shelf is locked where its room is counted. */
export async function holdCompany(stores: Pick<Stores, 'containers'>, to: Keeper): Promise<void> {
  if (to.kind === 'container') await stores.containers.lockMany([to.id], 'update');
}

/**
 * Refuses a thing that must not lie with what is in the container or on the shelf, or not in its zone. The place must be held: what lies
 * there is read now. @throws Problem company_refused, with what lies there, why, and where it may go instead
 */
export async function refuseCompany(stores: Stores, item: ItemRecord, to: Keeper, place: PlaceRecord | null): Promise<void> {
  if (!SHARED.has(to.kind) || sameKeeper(item.keeper, to)) return;
  const triage = await stores.assessments.latestTriage(item.id);
  if (!triage) return;
  const comer: Companion = { materialClass: item.materialClass, apartFrom: triage.result.apartFrom };
  const faults = companyFaults(comer, await stores.where.companions(to, LOOKED_AT));
  const zone = place?.zone === 'clean' && keptApartBy('apart.mould', comer);
  if (faults.length === 0 && !zone) return;
  throw await refusal(stores, item, to, faults, zone);
}

async function refusal(stores: Stores, item: ItemRecord, to: Keeper, faults: readonly CompanyFault<LyingCompanion>[], zone: boolean): Promise<Problem> {
  const because = [...faults.map((fault) => fault.because), ...(zone ? [CLEAN_ZONE] : [])];
  const others = faults.flatMap((fault) => fault.with.map(({ tagCode }) => ({ tag: formatTagCode(tagCode), ruleId: fault.ruleId })));
  const waiting = await stores.places.holdingArea(item.siteId, zone || faults.some(({ ruleId }) => ruleId === 'apart.mould') ? 'quarantine' : 'dirty');
  const where = waiting === null ? '' : `, in ${waiting.name}`;
  const named = others.length === 0 ? '' : ` There: ${others.slice(0, NAMED).map(({ tag }) => tag).join(', ')}${others.length > NAMED ? ` and ${others.length - NAMED} more` : ''}.`;
  return new Problem('company_refused', `${because.map(({ text }) => text).join(' ')}${named} Put it into a container or onto a shelf with its like${where}; or let a lead record the move with \`personId\` and a \`reason\` (POST /v1/items/{itemId}/custody-events).`, {
    members: { place: to, because, with: others.slice(0, NAMED), alternatives: waiting === null ? [] : [{ keeper: waiting.keeper, name: waiting.name }] },
  });
}
