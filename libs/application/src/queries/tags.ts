import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { PrintableTag, TagBlockRecord, TagBlockUse } from '../ports/tag-store.js';
import type { Stores } from '../ports/work.js';
import { foundTag } from '../tags/checked-tag.js';
import { lookedUp, type TagLookUp } from '../tags/look-up.js';

export type { TagLookUp };

/** What a scanned or typed tag belongs to; a mistyped one is answered with the nearest plausible tags. */
export async function lookUpTag(stores: Stores, _call: UseCaseCall, input: { typed: string }): Promise<TagLookUp> {
  return lookedUp(stores, (await foundTag(stores, input.typed)).code);
}

/** Blocks of an incident with how many of their tags are used, newest first. */
export async function listTagBlocks(stores: Stores, _call: UseCaseCall, input: { incidentId: string; limit: number; before: string | null }): Promise<TagBlockUse[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.tags.blocks(input.incidentId, input.limit, input.before);
}

/** A block with the tags of it that are to be printed. */
export interface PrintableBlock {
  block: TagBlockRecord;
  incidentName: string;
  tags: PrintableTag[];
}

/** Tags of a block from a position on (from 0), without those that were replaced. @throws Problem not_found */
export async function printableBlock(stores: Stores, input: { blockId: string; from: number; count: number | null }): Promise<PrintableBlock> {
  const block = await stores.tags.block(input.blockId);
  if (!block) throw notFound('tag block');
  const tags = await stores.tags.printable(block, input.from, input.count ?? block.lastSerial - block.firstSerial + 1);
  return { block, incidentName: (await stores.labelTemplates.incidentName(block.incidentId)) ?? '', tags };
}
