import type { z } from 'zod';
import { TAGGED_PLACE_KINDS, type TagBlockUse, type TaggedPlaceKind, type TagLookUp } from '#application';
import { formatTagCode } from '#custody';
import type { TagBlockUseBody, TagLookUpBody } from '#contracts';
import { presentItem } from '../../presenters/item.presenter.js';
import { iso, isoOrNull } from '../../presenters/time.js';

type Body = z.output<typeof TagLookUpBody>;

export function presentTag({ tag, item, place, inUse, replaces }: TagLookUp): Body {
  const printed = (code: string | null) => (code === null ? null : formatTagCode(code));
  const placeKind = TAGGED_PLACE_KINDS.find((kind): kind is TaggedPlaceKind => kind === place?.keeper.kind);
  return {
    tag: formatTagCode(tag.code), kind: tag.kind,
    state: tag.replaced !== null ? 'replaced' : tiedTo(tag) === null ? 'unused' : 'in-use',
    tiedTo: tiedTo(tag), tiedAt: isoOrNull(tag.tiedAtMs), tiedBy: tag.tiedBy,
    item: item === null ? null : presentItem(item), containerId: tag.containerId,
    place: place === null || placeKind === undefined ? null : { kind: placeKind, id: place.keeper.id, code: place.code, name: place.name, siteId: place.siteId },
    personId: tag.personId,
    replacedBy: printed(tag.replaced?.by ?? null), replacedAt: isoOrNull(tag.replaced?.atMs ?? null), replacedReason: tag.replaced?.reason ?? null,
    inUse: printed(inUse), replaces: printed(replaces),
  };
}

function tiedTo({ itemId, containerId, place, personId }: TagLookUp['tag']): Body['tiedTo'] {
  if (itemId !== null) return { kind: 'item', id: itemId };
  if (containerId !== null) return { kind: 'container', id: containerId };
  if (personId !== null) return { kind: 'person', id: personId };
  return place;
}

export function presentTagBlock(block: TagBlockUse): z.output<typeof TagBlockUseBody> {
  const count = block.lastSerial - block.firstSerial + 1;
  return { id: block.id, kind: block.kind, reservedFor: block.reservedFor, reservedAt: iso(block.createdAtMs), count, used: block.used, free: count - block.used };
}
