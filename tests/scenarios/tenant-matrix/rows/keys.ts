import type { PreparedIncident } from '#testing';
import type { Table } from '../row.js';

const inThirtyDays = () => new Date(Date.now() + 30 * 86_400_000).toISOString();

/** A key for the same incident, so that also a caller limited to it may handle it. */
function newKey(incident: PreparedIncident): Promise<{ id: string }> {
  return incident.create('/v1/keys', { label: incident.text('Tablet'), scopes: ['keys:manage'], expiresAt: inThirtyDays(), limitedToIncidentId: incident.id });
}

export const keyRows: Table = {
  createApiKey: {
    request: () => ({ body: { label: 'Tablet', scopes: ['keys:manage'], expiresAt: inThirtyDays() } }),
    references: { '#/limitedToIncidentId': { values: (incident) => [incident.id], ofNetwork: true } },
    unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' },
  },
  listApiKeys: { request: () => ({}), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  listAuditEntries: { request: () => ({}), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  rotateApiKey: { request: async (incident) => ({ params: { keyId: (await newKey(incident)).id }, body: { overlapHours: 1 } }) },
  revokeApiKey: { request: async (incident) => ({ params: { keyId: (await newKey(incident)).id }, body: {} }) },
};
