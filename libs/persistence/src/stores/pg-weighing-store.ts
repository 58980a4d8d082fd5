import type { WeighingRecord, WeighingStore } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface WeighingRow {
  incident_id: string;
  id: string;
  item_id: string;
  scale_kg: number;
  tare_kg: number;
  mass_kg: number;
  resolution_kg: number;
  weighed_at: Date;
  person_id: string | null;
  drying_place_id: string | null;
  note: string;
  state: WeighingRecord['state'];
  doubt: WeighingRecord['doubt'];
  recorded_at: Date;
}

function toRecord(row: WeighingRow): WeighingRecord {
  return {
    id: row.id, incidentId: row.incident_id, itemId: row.item_id, scaleKg: row.scale_kg, tareKg: row.tare_kg, massKg: row.mass_kg, resolutionKg: row.resolution_kg, weighedAtMs: row.weighed_at.getTime(),
    personId: row.person_id, dryingPlaceId: row.drying_place_id, note: row.note, state: row.state, doubt: row.doubt, recordedAtMs: row.recorded_at.getTime(),
  };
}

export class PgWeighingStore implements WeighingStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async ofItem(itemId: string): Promise<WeighingRecord[]> {
    const { rows } = await this.client.query<WeighingRow>({ name: 'weighings_of_item', text: 'select * from weighing where network_id = $1 and item_id = $2 order by weighed_at', values: [this.networkId, itemId] });
    return rows.map(toRecord);
  }

  async page(itemId: string, limit: number, afterMs: number | null): Promise<WeighingRecord[]> {
    const { rows } = await this.client.query<WeighingRow>({
      name: 'weighings_page',
      text: 'select * from weighing where network_id = $1 and item_id = $2 and ($4::timestamptz is null or weighed_at < $4) order by weighed_at desc limit $3',
      values: [this.networkId, itemId, limit, at(afterMs)],
    });
    return rows.map(toRecord);
  }

  async insert(weighing: WeighingRecord): Promise<void> {
    await this.client.query({
      name: 'weighing_insert',
      text: `insert into weighing (network_id, incident_id, id, item_id, scale_kg, tare_kg, mass_kg, resolution_kg, weighed_at, person_id, drying_place_id, note, state, doubt, recorded_at)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)`,
      values: [
        this.networkId, weighing.incidentId, weighing.id, weighing.itemId, weighing.scaleKg, weighing.tareKg, weighing.massKg, weighing.resolutionKg, at(weighing.weighedAtMs),
        weighing.personId, weighing.dryingPlaceId, weighing.note, weighing.state, weighing.doubt, at(weighing.recordedAtMs),
      ],
    });
  }

  async saveDoubts(changed: readonly Pick<WeighingRecord, 'id' | 'doubt'>[]): Promise<void> {
    if (changed.length === 0) return;
    await this.client.query({
      name: 'weighing_doubts',
      text: `update weighing w set doubt = c.doubt, state = case when c.doubt is null then 'accepted' else 'doubtful' end
             from unnest($2::uuid[], $3::text[]) as c (id, doubt) where w.network_id = $1 and w.id = c.id`,
      values: [this.networkId, changed.map(({ id }) => id), changed.map(({ doubt }) => doubt)],
    });
  }
}
