import type { FileBelonging, FileChange, FileObject, FileRecord, FileStore } from '#application';
import type { Client } from '../pool.js';
import { FILE_COLUMNS, OBJECT_COLUMNS, changesOf, fileValues, toFile, toObject, type FileRow, type ObjectRow } from './file-rows.js';

export class PgFileStore implements FileStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(file: FileRecord): Promise<void> {
    const values = fileValues(file);
    await this.client.query(`insert into file (network_id, ${FILE_COLUMNS}) values ($1, ${values.map((_, index) => `$${index + 2}`).join(', ')})`, [this.networkId, ...values]);
  }

  find(id: string): Promise<FileRecord | null> {
    return this.load(id, '');
  }

  lock(id: string): Promise<FileRecord | null> {
    return this.load(id, ' for update');
  }

  private async load(id: string, lock: string): Promise<FileRecord | null> {
    const { rows } = await this.client.query<FileRow>(`select ${FILE_COLUMNS} from file where network_id = $1 and id = $2${lock}`, [this.networkId, id]);
    return rows[0] ? toFile(rows[0]) : null;
  }

  async save(id: string, change: FileChange): Promise<void> {
    const changes = changesOf(change);
    const set = changes.map(({ column }, index) => `${column} = $${index + 3}`).join(', ');
    await this.client.query(`update file set ${set}, version = version + 1 where network_id = $1 and id = $2`, [this.networkId, id, ...changes.map(({ value }) => value)]);
  }

  async advance(id: string, fromByte: number, toByte: number): Promise<boolean> {
    const { rowCount } = await this.client.query({
      name: 'file_advance',
      text: "update file set offset_bytes = $4, version = version + 1 where network_id = $1 and id = $2 and state = 'receiving' and offset_bytes = $3",
      values: [this.networkId, id, fromByte, toByte],
    });
    return rowCount === 1;
  }

  async page(of: { itemId: string } | { householdId: string }, everyState: boolean, limit: number, after: string | null): Promise<FileRecord[]> {
    const [column, id] = 'itemId' in of ? ['item_id', of.itemId] : ['household_id', of.householdId];
    const { rows } = await this.client.query<FileRow>(
      `select ${FILE_COLUMNS} from file where network_id = $1 and ${column} = $2 and ($3 or state = 'kept') and ($5::uuid is null or id > $5) order by id limit $4`,
      [this.networkId, id, everyState, limit, after],
    );
    return rows.map(toFile);
  }

  async ofHousehold(householdId: string): Promise<FileRecord[]> {
    const { rows } = await this.client.query<FileRow>(`select ${FILE_COLUMNS} from file where network_id = $1 and household_id = $2 and state <> 'deleted' order by id`, [this.networkId, householdId]);
    return rows.map(toFile);
  }

  async unfinished(householdId: string): Promise<{ ofHousehold: number; ofNetwork: number }> {
    const { rows } = await this.client.query<{ mine: string; all: string }>(
      "select count(*) filter (where household_id = $2) as mine, count(*) as all from file where network_id = $1 and state in ('receiving', 'received')",
      [this.networkId, householdId],
    );
    return { ofHousehold: Number(rows[0]?.mine ?? 0), ofNetwork: Number(rows[0]?.all ?? 0) };
  }

  async eventKnown({ event, assessmentId, stepResultId, custodySeq, handBackId }: FileBelonging, itemId: string | null, householdId: string): Promise<boolean> {
    if (event === 'own') return true;
    const [sql, values] = assessmentId !== null ? ['assessment where network_id = $1 and id = $2 and item_id = $3', [assessmentId, itemId]]
      : stepResultId !== null ? ['step_result where network_id = $1 and id = $2 and item_id = $3', [stepResultId, itemId]]
        : handBackId !== null ? ['hand_back where network_id = $1 and id = $2 and household_id = $3', [handBackId, householdId]]
          : ['custody_event where network_id = $1 and seq = $2 and item_id = $3', [custodySeq, itemId]];
    const { rowCount } = await this.client.query(`select 1 from ${sql}`, [this.networkId, ...values]);
    return rowCount === 1;
  }

  async newestEvent(event: 'assessment' | 'step-result', itemId: string): Promise<string | null> {
    const table = event === 'assessment' ? 'assessment' : 'step_result';
    const { rows } = await this.client.query<{ id: string }>(`select id from ${table} where network_id = $1 and item_id = $2 order by recorded_at desc, id desc limit 1`, [this.networkId, itemId]);
    return rows[0]?.id ?? null;
  }

  async register(objects: readonly FileObject[]): Promise<void> {
    for (const object of objects) {
      await this.client.query(`insert into file_object (network_id, ${OBJECT_COLUMNS}) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
        [this.networkId, object.incidentId, object.fileId, object.name, object.role, object.atByte, object.bytes, object.mediaType, object.contentKey, object.state]);
    }
  }

  async objects(fileId: string): Promise<FileObject[]> {
    const { rows } = await this.client.query<ObjectRow>(`select ${OBJECT_COLUMNS} from file_object where network_id = $1 and file_id = $2 order by at_byte nulls last, role`, [this.networkId, fileId]);
    return rows.map(toObject);
  }

  async confirm(names: readonly string[]): Promise<number> {
    const { rowCount } = await this.client.query("update file_object set state = 'there' where network_id = $1 and name = any($2) and state = 'writing'", [this.networkId, names]);
    return rowCount ?? 0;
  }

  async drop(names: readonly string[]): Promise<void> {
    await this.client.query("update file_object set state = 'dropped' where network_id = $1 and name = any($2)", [this.networkId, names]);
  }

  async dropOf(fileIds: readonly string[], partsOnly: boolean): Promise<void> {
    await this.client.query("update file_object set state = 'dropped' where network_id = $1 and file_id = any($2) and state <> 'dropped' and (not $3 or role = 'part')", [this.networkId, fileIds, partsOnly]);
  }

  async removable(fileId: string, writingForMs: number): Promise<string[]> {
    const { rows } = await this.client.query<{ name: string }>(
      `select name from file_object where network_id = $1 and file_id = $2
       and (state = 'dropped' or (state = 'writing' and made_at < clock_timestamp() - $3 * interval '1 ms'))`,
      [this.networkId, fileId, writingForMs],
    );
    return rows.map(({ name }) => name);
  }

  async forget(names: readonly string[]): Promise<void> {
    await this.client.query('delete from file_object where network_id = $1 and name = any($2)', [this.networkId, names]);
  }
}
