import { packGround, type PlanGround, type PlanGroundStore } from '#application';
import { REVISIONS_IN_DETAIL } from '../planning/save-revision.js';
import type { Client } from '../pool.js';

/** One compressed document for each revision. */
export class PgPlanGroundStore implements PlanGroundStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async save(incidentId: string, revisionId: string, ground: PlanGround): Promise<void> {
    await this.client.query('insert into plan_ground (network_id, incident_id, revision_id, document) values ($1, $2, $3, $4)', [this.networkId, incidentId, revisionId, await packGround(ground)]);
    // As with assignments: the newest few, and the plan that work follows however many proposals came after it.
    await this.client.query(
      `delete from plan_ground where network_id = $1 and revision_id in (
         select id from plan_revision where network_id = $1 and incident_id = $2
            and number is distinct from (select max(number) from plan_revision where network_id = $1 and incident_id = $2 and published_at is not null)
         order by number desc offset $3)`,
      [this.networkId, incidentId, REVISIONS_IN_DETAIL],
    );
  }

  async findPacked(revisionId: string): Promise<Uint8Array | null> {
    const { rows } = await this.client.query<{ document: Buffer }>('select document from plan_ground where network_id = $1 and revision_id = $2', [this.networkId, revisionId]);
    // Bytes of their own: those of the answer lie in a larger piece, which would go to a thread as a whole.
    return rows[0] ? new Uint8Array(rows[0].document) : null;
  }
}
