/** A small record with roots over it, and a superuser who alters it with every trigger and foreign key off. */
import pg from 'pg';
import { hashEvent, type CustodyEvent } from '#custody';
import { newId } from '#platform';
import { type IncidentOnTest, startTestServer, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';
import { type Fault, verifyNetwork } from '../../apps/ops/src/verify/verify-network.js';
import { makeRoots } from '../api/support/custody-roots.js';
import { workerContextOf } from '../unit/plan-problem/support/runs.js';

/** Everything that the record stands in. */
const TABLES = ['custody_root_waiting', 'custody_root_event', 'custody_root_block', 'custody_root', 'custody_key', 'custody_event', 'container_event', 'item'];

export class TamperBench {
  private constructor(
    readonly server: TestServer,
    readonly network: TestNetwork,
    readonly other: TestNetwork,
    readonly incident: IncidentOnTest,
    /** Items with four events each: two under the first root, one under the second, one that waits. */
    readonly items: string[],
    private readonly superuser: pg.Client,
  ) {}

  static async open(): Promise<TamperBench> {
    const server = await startTestServer();
    const [network, other] = [await server.network(), await server.network()];
    const incident = await network.incident();
    const household = await takeInTestHousehold(network, incident);
    const items: string[] = [];
    for (let n = 0; n < 3; n += 1) items.push((await takeInTestItem(network, incident, household)).id);
    const places = [{ kind: 'holding', id: incident.holding('dirty') }, { kind: 'holding', id: incident.holding('clean') }];
    const moveAll = async (turn: number) => {
      for (const id of items) await network.post(`/v1/items/${id}/custody-events`, { kind: 'moved', from: places[turn % 2], to: places[(turn + 1) % 2] }).expect(201);
    };
    await moveAll(0);
    await makeRoots(server, network);
    await moveAll(1);
    await makeRoots(server, network);
    await moveAll(2);
    const superuser = new pg.Client({ connectionString: server.database.adminUrl });
    await superuser.connect();
    // Whoever owns the database takes its checks off first.
    await superuser.query(`do $$ declare c record; begin
      for c in select conrelid::regclass as name, conname from pg_constraint where contype = 'c' and conrelid = any($1::regclass[]) loop execute format('alter table %s drop constraint %I', c.name, c.conname); end loop;
    end $$`.replace('$1', `'{${TABLES.join(',')}}'`));
    await superuser.query('create schema kept');
    for (const table of TABLES) await superuser.query(`create table kept.${table} as table public.${table}`);
    return new TamperBench(server, network, other, incident, items, superuser);
  }

  async close(): Promise<void> {
    await this.superuser.end();
    await this.server.close();
  }

  /** What `verify` finds after these statements; the record is put back afterwards. */
  async after(tamper: (sql: pg.Client) => Promise<unknown>, look: () => Promise<Fault[]> = () => this.verify()): Promise<Fault[]> {
    await this.withoutTriggers(tamper);
    try {
      return await look();
    } finally {
      await this.withoutTriggers(async (sql) => {
        for (const table of TABLES) await sql.query(`delete from ${table}`);
        for (const table of TABLES) await sql.query(`insert into ${table} select * from kept.${table}`);
      });
    }
  }

  async verify(pageEvents?: number): Promise<Fault[]> {
    const faults: Fault[] = [];
    await verifyNetwork({ unitOfWork: this.server.unitOfWork, networkId: this.network.networkId, onFault: (fault) => faults.push(fault), ...(pageEvents !== undefined && { pageEvents }) });
    return faults;
  }

  chain(itemId: string): Promise<CustodyEvent[]> {
    return this.server.unitOfWork.read(workerContextOf(this.network), (stores) => stores.custody.chain(itemId, 0, 100));
  }

  /** Writes another history of an item from one event on, with every hash and the head made again: nothing in the chain betrays it. */
  async rewriteChain(sql: pg.Client, itemId: string, fromSeq: number): Promise<CustodyEvent[]> {
    let prevHash = '';
    const rewritten = (await this.chain(itemId)).map((event) => {
      const actorId = event.seq === fromSeq ? newId() : event.actorId;
      const next = { ...event, actorId, prevHash: event.seq > fromSeq ? prevHash : event.prevHash };
      prevHash = hashEvent(next);
      return { ...next, hash: prevHash };
    });
    for (const event of rewritten) await sql.query('update custody_event set actor_id = $3, prev_hash = $4, hash = $5 where item_id = $1 and seq = $2', [itemId, event.seq, event.actorId, event.prevHash, event.hash]);
    await sql.query('update item set head_hash = $2 where id = $1', [itemId, prevHash]);
    return rewritten;
  }

  private async withoutTriggers(work: (sql: pg.Client) => Promise<unknown>): Promise<void> {
    await this.superuser.query("begin; set local session_replication_role = 'replica'");
    try {
      await work(this.superuser);
      await this.superuser.query('commit');
    } catch (error) {
      await this.superuser.query('rollback');
      throw error;
    }
  }
}

/** Columns of a table with their types, from the catalogue. */
export async function columnsOf(bench: TamperBench, table: string): Promise<{ name: string; type: string; nullable: boolean }[]> {
  const { rows } = await bench.server.admin.query<{ name: string; type: string; nullable: boolean }>(
    "select column_name as name, udt_name as type, is_nullable = 'YES' as nullable from information_schema.columns where table_schema = 'public' and table_name = $1 order by ordinal_position", [table]);
  return rows;
}
