import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { viewOfManifest, type ManifestView } from '../custody/manifests.js';
import type { ManifestExceptionRecord } from '../ports/manifest-store.js';
import type { Stores } from '../ports/work.js';

export async function getManifest(stores: Stores, _call: UseCaseCall, input: { manifestId: string }): Promise<ManifestView> {
  const manifest = await stores.manifests.find(input.manifestId);
  if (!manifest) throw notFound('manifest');
  return viewOfManifest(stores, manifest);
}

export interface AgedException extends ManifestExceptionRecord {
  /** How long it has been open, or was. */
  ageMs: number;
}

/** Unsettled ones first, the oldest first. */
export async function listManifestExceptions(stores: Stores, call: UseCaseCall, input: { incidentId: string; onlyOpen: boolean; limit: number; after: { open: boolean; id: string } | null }): Promise<AgedException[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  const rows = await stores.manifests.exceptionsPage(input.incidentId, input.onlyOpen, input.limit, input.after);
  return rows.map((row) => agedAt(row, call.env.nowMs));
}

export function agedAt(row: ManifestExceptionRecord, nowMs: number): AgedException {
  return { ...row, ageMs: Math.max(0, (row.settledAtMs ?? nowMs) - row.openedAtMs) };
}
