import { type ChangeIncident, notFound, outdoorAirFaults, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { IncidentRecord } from '../ports/layout-store.js';
import { definedMembers, staleVersion } from './change-versioned.js';

export type ChangeIncidentInput = ChangeIncident & { incidentId: string; expectedVersion: number };

/** Merges a patch into the incident (RFC 7396: members given replace, null removes) and checks the result, not the patch. */
export async function changeIncident(stores: ConfigStores, call: UseCaseCall, input: ChangeIncidentInput): Promise<IncidentRecord> {
  const { incidentId, expectedVersion, ...patch } = input;
  const before = await stores.layout.incident(incidentId);
  if (!before) throw notFound('incident');
  if (before.version !== expectedVersion) throw staleVersion('incident', before.version);
  const changed = definedMembers(patch);
  if (Object.keys(changed).length === 0) return before;
  refuseHalfAir({ ...before, ...changed });
  const saved = await stores.layout.saveIncident(incidentId, expectedVersion, changed, call.env.nowMs);
  if (saved) return saved;
  const present = await stores.layout.incident(incidentId);
  throw staleVersion('incident', present?.version ?? expectedVersion + 1);
}

function refuseHalfAir(result: IncidentRecord): void {
  const faults = outdoorAirFaults(result);
  if (faults.length === 0) return;
  throw new Problem('validation_failed', 'The incident would be left with half of its outdoor air; see errors. Nothing was changed.', {
    errors: faults.map((fault) => ({ detail: fault.message, code: 'custom', pointer: `#/${fault.path.join('/')}` })),
  });
}
