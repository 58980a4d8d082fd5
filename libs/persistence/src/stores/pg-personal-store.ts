import type { PersonalStore, PersonalText, SealedText } from '#application';
import { Problem } from '#contracts';
import type { MasterKeys } from '#platform';
import { blindKeyOf, blindWord, commonKeyOf, freshKey, openBytes, sealBytes } from '../personal/envelope.js';
import type { Client } from '../pool.js';
import { at } from './row.js';

/** Of one household; `destroyed` for good. */
type HouseholdKey = Buffer | 'destroyed';

interface KeyRow {
  master_version: number;
  network_wrapped: Buffer;
  household_id: string | null;
  wrapped: Buffer | null;
}

export class PgPersonalStore implements PersonalStore {
  /** Of this transaction only: a key may be made in one that is rolled back, and one may be destroyed at any time. */
  private network: Buffer | null = null;
  private readonly households = new Map<string, HouseholdKey>();

  constructor(
    private readonly client: Pick<Client, 'query'>,
    private readonly networkId: string,
    private readonly masters: MasterKeys | null,
  ) {}

  async seal(householdId: string | null, field: string, text: string): Promise<Uint8Array> {
    return (await this.sealAll([{ householdId, field, text }]))[0] as Uint8Array;
  }

  async sealAll(texts: readonly PersonalText[]): Promise<Uint8Array[]> {
    if (texts.length === 0) return [];
    await this.loadKeys(texts.flatMap(({ householdId }) => householdId ?? []));
    const sealed: Uint8Array[] = [];
    for (const { householdId, field, text } of texts) sealed.push(sealBytes(await this.keyToSeal(householdId), this.placeOf(householdId, field), Buffer.from(text, 'utf8')));
    return sealed;
  }

  async open(householdId: string | null, field: string, sealed: Uint8Array | null): Promise<string | null> {
    return (await this.openAll([{ householdId, field, sealed }]))[0] ?? null;
  }

  async openAll(texts: readonly SealedText[]): Promise<(string | null)[]> {
    const there = texts.filter(({ sealed }) => sealed !== null);
    if (there.length === 0) return texts.map(() => null);
    await this.loadKeys(there.flatMap(({ householdId }) => householdId ?? []));
    if (there.some(({ householdId }) => householdId === null)) await this.networkKey();
    return texts.map(({ householdId, field, sealed }) => {
      if (sealed === null) return null;
      const key = householdId === null ? this.network && commonKeyOf(this.network) : this.households.get(householdId);
      if (!key) throw new Error('Something is sealed with a key that is not there.');
      return key === 'destroyed' ? null : openBytes(key, this.placeOf(householdId, field), sealed).toString('utf8');
    });
  }

  async blindToKeep(purpose: string, words: readonly string[]): Promise<Uint8Array[]> {
    if (words.length === 0) return [];
    return blindAll((await this.networkKey()) ?? (await this.makeNetworkKey()), purpose, words);
  }

  async blindToFind(purpose: string, words: readonly string[]): Promise<Uint8Array[]> {
    if (words.length === 0) return [];
    return blindAll((await this.networkKey()) ?? freshKey(), purpose, words);
  }

  touched(): string[] {
    return [...this.households].flatMap(([id, key]) => (key === 'destroyed' ? [] : [id]));
  }

  async destroyKey(householdId: string, atMs: number): Promise<void> {
    await this.client.query(
      `insert into household_key (network_id, incident_id, household_id, destroyed_at) select network_id, incident_id, id, $3 from household where network_id = $1 and id = $2
       on conflict (network_id, household_id) do update set wrapped = null, destroyed_at = excluded.destroyed_at where household_key.destroyed_at is null`,
      [this.networkId, householdId, at(atMs)],
    );
    this.households.set(householdId, 'destroyed');
  }

  private placeOf(householdId: string | null, field: string): string[] {
    return householdId === null ? ['common', this.networkId, field] : ['text', this.networkId, householdId, field];
  }

  private async keyToSeal(householdId: string | null): Promise<Buffer> {
    if (householdId === null) return commonKeyOf((await this.networkKey()) ?? (await this.makeNetworkKey()));
    const key = this.households.get(householdId) ?? (await this.makeHouseholdKey(householdId));
    if (key === 'destroyed') throw new Problem('household_erased', 'What was known of this household has been erased. Nothing can be written for it any more.');
    return key;
  }

  /** One look for the keys of all households and that of the network. */
  private async loadKeys(householdIds: readonly string[]): Promise<void> {
    const unknown = [...new Set(householdIds)].filter((id) => !this.households.has(id));
    if (unknown.length === 0) return;
    const { rows } = await this.client.query<KeyRow>({
      name: 'personal_keys',
      text: `select n.master_version, n.wrapped as network_wrapped, h.household_id, h.wrapped
             from network_key n left join household_key h on h.network_id = n.network_id and h.household_id = any($2::uuid[]) where n.network_id = $1`,
      values: [this.networkId, unknown],
    });
    for (const row of rows) {
      this.takeNetworkKey(row);
      if (row.household_id === null) continue;
      this.households.set(row.household_id, row.wrapped === null || this.network === null ? 'destroyed' : openBytes(this.network, ['household', this.networkId, row.household_id], row.wrapped));
    }
  }

  private takeNetworkKey({ master_version: version, network_wrapped: wrapped }: Pick<KeyRow, 'master_version' | 'network_wrapped'>): Buffer {
    return (this.network ??= openBytes(this.masterKey(version), ['network', this.networkId], wrapped));
  }

  private async networkKey(): Promise<Buffer | null> {
    if (this.network !== null) return this.network;
    const { rows } = await this.client.query<KeyRow>({ name: 'network_key', text: 'select master_version, wrapped as network_wrapped from network_key where network_id = $1', values: [this.networkId] });
    return rows[0] ? this.takeNetworkKey(rows[0]) : null;
  }

  /** Of two that make one together the first wins, and the other waits for it and takes its key. */
  private async makeNetworkKey(): Promise<Buffer> {
    const version = this.masters?.newest ?? 0;
    const wrapped = sealBytes(this.masterKey(version), ['network', this.networkId], freshKey());
    await this.client.query('insert into network_key (network_id, master_version, wrapped) values ($1, $2, $3) on conflict do nothing', [this.networkId, version, wrapped]);
    const key = await this.networkKey();
    if (key === null) throw new Error('The key of the network is not there.');
    return key;
  }

  private async makeHouseholdKey(householdId: string): Promise<HouseholdKey> {
    const network = (await this.networkKey()) ?? (await this.makeNetworkKey());
    const wrapped = sealBytes(network, ['household', this.networkId, householdId], freshKey());
    await this.client.query(
      `insert into household_key (network_id, incident_id, household_id, wrapped) select network_id, incident_id, id, $3 from household where network_id = $1 and id = $2 on conflict do nothing`,
      [this.networkId, householdId, wrapped],
    );
    await this.loadKeys([householdId]);
    const key = this.households.get(householdId);
    if (key === undefined) throw new Problem('not_found', 'There is no such household.');
    return key;
  }

  private masterKey(version: number): Buffer {
    if (this.masters === null) throw new Error('No master key was given to this process.');
    const key = this.masters.keyOf(version);
    if (key === null) throw new Error(`The keys of a network are wrapped by master key ${version}, which was not given.`);
    return key;
  }
}

function blindAll(networkKey: Buffer, purpose: string, words: readonly string[]): Uint8Array[] {
  const key = blindKeyOf(networkKey);
  return words.map((word) => blindWord(key, purpose, word));
}
