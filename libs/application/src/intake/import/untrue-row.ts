import { contradictionsIn, type WaterKind } from '#care';
import type { IncidentFacts } from '../../ports/place-store.js';
import { firstAssessment } from '../first-assessment.js';
import type { ImportColumn } from './import-columns.js';
import type { RowRemarks } from './row-remarks.js';
import type { RowReading } from './row-values.js';

/** Columns by the members of an assessment that a file can fill. */
const COLUMN_OF: Readonly<Record<string, ImportColumn>> = { wettedAtMs: 'wettedAt', count: 'count', materialClass: 'material', water: 'water', significance: 'significance' };

/** Refuses a row whose cells cannot all be true, with every contradiction; a cell that is refused already is not told of twice. */
export function refuseUntrue({ values }: RowReading, remarks: RowRemarks, incident: IncidentFacts, nowMs: number): void {
  const assessment = firstAssessment({ ...values, water: values.water ?? (incident.defaultWater as WaterKind), consents: { ...values.consents, release: null } });
  const refused = new Set(remarks.refusals.map(({ column }) => column));
  for (const { code, members, text } of contradictionsIn(assessment, { nowMs, floodAtMs: incident.floodAtMs, airTempC: incident.outdoorAirTempC })) {
    const column = members.map((member) => COLUMN_OF[member] ?? '').find((name) => name !== '') ?? '';
    if (!refused.has(column)) remarks.refuse(column, code.replaceAll('-', '_'), { text });
  }
}
