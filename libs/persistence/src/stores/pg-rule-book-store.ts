import type { RuleBookChoiceRecord, RuleBookDecision, RuleBookStore } from '#application';
import { TERMINAL_STAGES } from '#custody';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface ChoiceRow {
  id: string;
  number: number;
  release: string;
  choices: Record<string, string>;
  version: string;
  reason: string;
  decided_by: string;
  decided_at: Date;
  principal_id: string;
  lead_id: string | null;
  lead_name: string | null;
}

// The person is joined below the policy of the incident: who is limited to another one does not see the lead.
const DECISION = 'c.id, c.number, c.release, c.choices, c.version, c.reason, c.decided_by, c.decided_at, c.principal_id, p.id as lead_id, p.display_name as lead_name';
const LEAD = 'left join person p on p.network_id = c.network_id and p.id = c.decided_by';

interface FollowedRow {
  started_with: string;
}

/** What a network began with, and what it decided last. */
interface Followed {
  startedWith: string;
  decision: RuleBookDecision | null;
}

export class PgRuleBookStore implements RuleBookStore {
  private loaded: Promise<Followed> | undefined;

  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async inForce(): Promise<RuleBookDecision | null> {
    return (await this.followed()).decision;
  }

  async startedWith(): Promise<string> {
    return (await this.followed()).startedWith;
  }

  private followed(): Promise<Followed> {
    this.loaded ??= this.load();
    return this.loaded;
  }

  private async load(): Promise<Followed> {
    const { rows } = await this.client.query<FollowedRow & (ChoiceRow | { id: null })>({
      name: 'rule_book_followed',
      text: `select n.rule_book_release as started_with, ${DECISION} from network n
             left join lateral (select * from rule_book_choice newest where newest.network_id = n.network_id order by newest.number desc limit 1) c on true ${LEAD}
             where n.network_id = $1`,
      values: [this.networkId],
    });
    const [row] = rows;
    if (row === undefined) throw new Error('a call of a network that there is not');
    return { startedWith: row.started_with, decision: row.id === null ? null : toDecision(row) };
  }

  async append(record: RuleBookChoiceRecord): Promise<boolean> {
    this.loaded = undefined;
    const { rowCount } = await this.client.query(
      `insert into rule_book_choice (network_id, id, number, release, choices, version, reason, decided_by, decided_at, principal_id)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) on conflict (network_id, number) do nothing`,
      [this.networkId, record.id, record.number, record.release, JSON.stringify(record.choices), record.version, record.reason, record.decidedBy, at(record.decidedAtMs), record.principalId],
    );
    return rowCount === 1;
  }

  async page(limit: number, beforeNumber: number | null): Promise<RuleBookDecision[]> {
    const { rows } = await this.client.query<ChoiceRow>({
      name: 'rule_book_choice_page',
      text: `select ${DECISION} from rule_book_choice c ${LEAD} where c.network_id = $1 and ($3::int is null or c.number < $3) order by c.number desc limit $2`,
      values: [this.networkId, limit, beforeNumber],
    });
    return rows.map(toDecision);
  }

  async openIncidents(): Promise<string[]> {
    const { rows } = await this.client.query<{ id: string }>("select id from incident where network_id = $1 and state = 'open' order by id", [this.networkId]);
    return rows.map(({ id }) => id);
  }

  async itemsBehind(incidentId: string, version: string, limit: number, afterId: string | null): Promise<string[]> {
    const { rows } = await this.client.query<{ id: string }>({
      name: 'rule_book_items_behind',
      text: `select i.id from item i
             join lateral (select t.rule_book_version from triage_result t where t.network_id = i.network_id and t.item_id = i.id order by t.created_at desc, t.id desc limit 1) latest on true
             where i.network_id = $1 and i.incident_id = $2 and i.stage <> all ($6::text[]) and ($5::uuid is null or i.id > $5) and latest.rule_book_version <> $3
             order by i.id limit $4`,
      values: [this.networkId, incidentId, version, limit, afterId, [...TERMINAL_STAGES]],
    });
    return rows.map(({ id }) => id);
  }

  async awaitIntakes(incidentId: string): Promise<void> {
    // Who takes something in holds the row `for key share` until the end of the transaction.
    await this.client.query('select 1 from incident where network_id = $1 and id = $2 for update', [this.networkId, incidentId]);
  }
}

function toDecision(row: ChoiceRow): RuleBookDecision {
  return {
    id: row.id, number: row.number, release: row.release, choices: row.choices, version: row.version, reason: row.reason,
    decidedBy: row.decided_by, decidedAtMs: row.decided_at.getTime(), principalId: row.principal_id,
    lead: row.lead_id === null ? null : { id: row.lead_id, name: row.lead_name ?? '' },
  };
}
