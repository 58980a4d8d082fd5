/** Many items written straight into the tables, for measurements: intake through the API would take minutes. */
import type pg from 'pg';
import { extentOf } from '#application';
import { planningWeight, triageOutcome, type Assessment, type MaterialClass } from '#care';
import type { StandardItemKind } from '#climate';
import { newId } from '#platform';
import type { IncidentOnTest, TestNetwork } from '#testing';

const FLOOD_MS = Date.parse('2026-05-08T18:00:00Z');
const KINDS: [MaterialClass, StandardItemKind][] = [
  ['textile-quilt-padded', 'double-quilt'], ['textile-garment-3d', 'garment'], ['photo-colour-print', 'print-10x15'], ['book-bound', 'book'], ['paper-coated', 'a4-sheet'], ['textile-flat-small', 'garment'], ['unknown', 'garment'],
];

function assessmentOf(index: number, materialClass: MaterialClass): Assessment {
  return {
    materialClass, fibre: 'unknown', count: materialClass === 'photo-colour-print' ? 40 : 1, wetState: index % 4 === 0 ? 'wet' : 'unknown', wettedAtMs: FLOOD_MS + (index % 7) * 3_600_000,
    water: 'black', mould: 'none', fragility: 'sound', colourTests: [], allColoursTested: index % 3 === 0, alreadyBled: null, hazards: [],
    significance: (['everyday', 'valued', 'treasured', 'irreplaceable'] as const)[index % 4] ?? 'valued', onlyCopy: null, highMarketValue: null,
    consents: { treat: index % 19 !== 0, freeze: index % 5 === 0 ? null : true, refer: null, release: null },
  };
}

/** Puts `count` waiting, triaged items of one household into an incident. */
export async function crowd(admin: pg.Pool, network: TestNetwork, incident: IncidentOnTest, count: number, nowMs: number): Promise<void> {
  const householdId = newId();
  await admin.query('insert into household (network_id, incident_id, id, code, created_at, updated_at) values ($1, $2, $3, $4, now(), now())', [network.networkId, incident.id, householdId, 'H-MANY']);
  const rows = Array.from({ length: count }, (_, index) => {
    const [materialClass, sizeClass] = KINDS[index % KINDS.length]!;
    const observed = assessmentOf(index, materialClass);
    const result = triageOutcome(observed, { nowMs, floodAtMs: FLOOD_MS, airTempC: 24 });
    const option = result.options.find(({ needs }) => needs.length === 0) ?? result.options[0]!;
    const extent = extentOf(sizeClass, observed.count);
    return {
      id: newId(), tag: `T${String(index).padStart(7, '0')}`, kind: observed.count > 1 ? 'lot' : 'item', count: observed.count, materialClass, sizeClass, ...extent, significance: observed.significance, urgency: result.urgency,
      startBy: new Date(result.startByMs).toISOString(), disposition: option.disposition, weight: planningWeight(observed), next: option.steps[0]!.step, owner: option.needs.length > 0, assessmentId: newId(), observed, triageId: newId(), result,
    };
  });
  for (let at = 0; at < rows.length; at += 200) await insert(admin, network.networkId, incident, householdId, rows.slice(at, at + 200));
  await admin.query('analyze item; analyze triage_result; analyze assessment');
}

async function insert(admin: pg.Pool, networkId: string, incident: IncidentOnTest, householdId: string, rows: object[]): Promise<void> {
  await admin.query(
    `with r as (
       select * from jsonb_to_recordset($6::jsonb) as r (id uuid, tag text, kind text, count int, "materialClass" text, "sizeClass" text, "areaDm2" int, "volumeL" int, "dryMassG" int, significance text,
         urgency text, "startBy" timestamptz, disposition text, weight int, next text, owner boolean, "assessmentId" uuid, observed jsonb, "triageId" uuid, result jsonb)
     ), i as (
       insert into item (network_id, incident_id, id, household_id, site_id, tag_code, kind, count, description, material_class, size_class, area_dm2, volume_l, dry_mass_g, significance, arrived_at,
         seq, head_hash, keeper_kind, keeper_id, stage, urgency, start_by, disposition, planning_weight, next_step, waiting_for_owner, created_at, updated_at)
       select $1, $2, id, $3, $4, tag, kind, count, 'thing ' || tag, "materialClass", "sizeClass", "areaDm2", "volumeL", "dryMassG", significance, now(), 1, '', 'holding', $5, 'waiting', urgency, "startBy", disposition, weight, next, owner, now(), now() from r
     ), a as (
       insert into assessment (network_id, incident_id, id, item_id, observed, origin, assessed_by, assessed_at, recorded_at) select $1, $2, "assessmentId", id, observed, 'person', $3, now(), now() from r
     )
     insert into triage_result (network_id, incident_id, id, item_id, assessment_id, rule_book_version, urgency, start_by, result, created_at)
     select $1, $2, "triageId", id, "assessmentId", 'test', urgency, "startBy", result, now() from r`,
    [networkId, incident.id, householdId, incident.site(), incident.holding('dirty'), JSON.stringify(rows)],
  );
}
