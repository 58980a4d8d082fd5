import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { PaperKitRecord } from '../ports/paper-kit-store.js';
import type { Stores } from '../ports/work.js';
import { sheetsForSite } from '../paper-mode/sheets.js';
import { reserveTags } from './reserve-tags.js';

export interface MakePaperKitInput {
  siteId: string;
  slips: number;
}

/** Prepares for a power cut: numbered slips for one site, each with a tag that is reserved for it, and numbered sheets for its stations and places as they are now. */
export async function makePaperKit(stores: Stores, call: UseCaseCall, input: MakePaperKitInput): Promise<{ kit: PaperKitRecord; codes: string[] }> {
  const site = await stores.places.site(input.siteId);
  if (!site) throw notFound('site');
  const kitId = call.env.newId();
  const block = await reserveTags(stores, call, { incidentId: site.incidentId, kind: 'item', count: input.slips, reservedFor: `paper kit ${kitId.slice(-4)}` });
  const kit: PaperKitRecord = { id: kitId, incidentId: site.incidentId, siteId: site.id, tagBlockId: block.id, slips: input.slips, createdAtMs: call.env.nowMs, createdBy: call.context.principalId };
  await stores.paperKits.insert(kit, block.codes, await sheetsForSite(stores, site.incidentId, site.id));
  return { kit, codes: block.codes };
}
