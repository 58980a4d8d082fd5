import type { z } from 'zod';
import type { AgedException, ManifestExceptionRecord, ManifestView } from '#application';
import type { ManifestBody, ManifestExceptionBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';

const MINUTE_MS = 60_000;

function exceptionMembers({ id, manifestId, thing, thingId, tagCode, kind, reason, ownerId, openedAtMs, settledAtMs, settledBy, settlement }: ManifestExceptionRecord) {
  return { id, manifestId, thing, thingId, tag: formatTagCode(tagCode), kind, reason, ownerId, openedAt: iso(openedAtMs), settledAt: isoOrNull(settledAtMs), settledBy, settlement };
}

export function presentManifestException(exception: AgedException): z.output<typeof ManifestExceptionBody> {
  return { ...exceptionMembers(exception), ageMinutes: Math.floor(exception.ageMs / MINUTE_MS) };
}

export function presentManifest({ manifest, departure, arrival, exceptions }: ManifestView): z.output<typeof ManifestBody> {
  const { id, incidentId, carrier, fromSiteId, toSiteId, personId, state, departedBy, arrivedBy, version } = manifest;
  const { asExpected, excused, unaccounted, unexpected } = departure;
  return {
    id, incidentId, carrier, fromSiteId, toSiteId, personId, state, createdAt: iso(manifest.createdAtMs), departedAt: isoOrNull(manifest.departedAtMs), departedBy, arrivedAt: isoOrNull(manifest.arrivedAtMs), arrivedBy, version,
    lines: manifest.lines.map((line) => ({
      thing: line.thing, id: line.id, tag: formatTagCode(line.tagCode), expected: line.expected, loadedAt: isoOrNull(line.loadedAtMs), loadedBy: line.loadedBy, unloadedAt: isoOrNull(line.unloadedAtMs), unloadedBy: line.unloadedBy,
    })),
    departure: { asExpected, excused, unaccounted, unexpected }, arrival, exceptions: exceptions.map(exceptionMembers),
  };
}
