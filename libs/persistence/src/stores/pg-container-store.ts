import type { ContainerRecord, ContainerStore } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

export class PgContainerStore implements ContainerStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(container: ContainerRecord): Promise<void> {
    await this.client.query(
      'insert into container (network_id, incident_id, id, site_id, tag_code, kind, description, created_at) values ($1, $2, $3, $4, $5, $6, $7, $8)',
      [this.networkId, container.incidentId, container.id, container.siteId, container.tagCode, container.kind, container.description, at(container.createdAtMs)],
    );
  }

  async find(containerId: string): Promise<ContainerRecord | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; site_id: string; tag_code: string; kind: ContainerRecord['kind']; description: string; created_at: Date }>(
      'select * from container where network_id = $1 and id = $2',
      [this.networkId, containerId],
    );
    const row = rows[0];
    return row ? { id: row.id, incidentId: row.incident_id, siteId: row.site_id, tagCode: row.tag_code, kind: row.kind, description: row.description, createdAtMs: row.created_at.getTime() } : null;
  }
}
