/** What has had its time, for the drill; see `reads.ts`. */
import { calibrateRetention, type RetentionRunRecord, type Stores } from '#application';
import type { Foreign, Read } from './reads.js';

const of = (foreign: Foreign, name: string) => foreign.incident.the(name);
const page = 50;
const NO_RUN: RetentionRunRecord = { id: '', incidentId: '', state: 'stopped', personId: '', principalId: '', asOfMs: 0, policyRevision: 0, policy: calibrateRetention(), afterHouseholdId: null, lookedAt: 9, touched: 9, erased: 9, gone: { contacts: 9 }, endedAtMs: 1 };

export const RETENTION_READS: Record<string, Read<Stores>> = {
  'retention.incidents': (stores) => stores.retention.incidents(),
  'retention.ofIncident': (stores, foreign) => stores.retention.ofIncident(foreign.incident.id),
  'retention.ofHouseholds': (stores, foreign) => stores.retention.ofHouseholds(foreign.incident.id, page, null),
  'retention.ofHousehold': (stores, foreign) => stores.retention.ofHousehold(of(foreign, 'household')),
  'retention.findRun': (stores, foreign) => stores.retention.findRun(of(foreign, 'retentionRun')),
  'retention.lockRun': (stores, foreign) => stores.retention.lockRun(of(foreign, 'retentionRun')),
  'retention.runs': (stores, foreign) => stores.retention.runs(foreign.incident.id, page, null),
};

export const RETENTION_WRITES: Record<string, Read<Stores>> = {
  'retention.blank': (stores, foreign) => stores.retention.blank(of(foreign, 'household'), 'contacts'),
  'retention.blankAnswers': (stores, foreign) => stores.retention.blankAnswers(of(foreign, 'household')),
  'retention.blankOfIncident': (stores, foreign) => stores.retention.blankOfIncident(foreign.incident.id, 'refused-rows'),
  'retention.saveRun': (stores, foreign) => stores.retention.saveRun({ ...NO_RUN, id: of(foreign, 'retentionRun') }),
};
