/** Shared by the specs of files: sending them, and doing the worker's part on the real database with the real check in its own process. */
import { createHash, randomUUID } from 'node:crypto';
import { jest } from '@jest/globals';
import { type FileChecker, type FileVault, runFileCheck, runFileSweep } from '#application';
import { workerContext } from '#messaging';
import { LocalVault } from '#persistence';
import { newId } from '#platform';
import type { HouseholdOnTest, TestClient } from '#testing';
import { Workbench } from './workbench.js';

/** Every file is looked into by a process of its own, which takes ten seconds to start where others want the machine as well. */
jest.setTimeout(240_000);
/** For a check whose time is not what is asked: the product's own time is too short for a process that starts on a busy machine. */
const PATIENT_MS = 120_000;

declare const wracklineBuild: (path: string) => Promise<unknown>;

interface CheckerModule {
  childChecker(options: { timeoutMs?: number; memoryMb?: number; onPeak?(peakMb: number): void }): FileChecker;
}

export const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
export const TUS = { 'tus-resumable': '1.0.0' };
export const PART = 'application/offset+octet-stream';

interface StoredFile {
  id: string;
  state: string;
  refusal: { code: string; text: string } | null;
  removed: { code: string; text: string }[];
  [member: string]: unknown;
}

/** One household with one quilt, and the moves that the specs make all the time. */
export class FileBench {
  private constructor(
    readonly bench: Workbench,
    readonly household: HouseholdOnTest,
    readonly itemId: string,
    readonly vault: FileVault,
    readonly checker: FileChecker,
    /** Most memory of each check, in the order in which they were made. */
    readonly peaksMb: number[],
  ) {}

  static async open(limits: { timeoutMs?: number; memoryMb?: number } = {}): Promise<FileBench> {
    const bench = await Workbench.open();
    const household = await bench.household();
    const { id } = await bench.takeIn(household);
    const { childChecker } = (await wracklineBuild('apps/worker/src/file-check/child-checker.js')) as CheckerModule;
    const peaksMb: number[] = [];
    return new FileBench(bench, household, id, new LocalVault(bench.server.filesFolder), childChecker({ timeoutMs: PATIENT_MS, ...limits, onPeak: (peakMb) => void peaksMb.push(peakMb) }), peaksMb);
  }

  close(): Promise<void> {
    return this.bench.close();
  }

  get network() {
    return this.bench.network;
  }

  get server() {
    return this.bench.server;
  }

  /** Begins an upload; the answer is a supertest request. */
  begin(length: number | string, query: Record<string, string> = {}, client: TestClient = this.network, headers: Record<string, string> = {}) {
    return client.post(`/v1/households/${this.household.id}/uploads?${new URLSearchParams({ kind: 'photograph', itemId: this.itemId, ...query })}`, undefined, { ...TUS, 'upload-length': String(length), ...headers });
  }

  async begun(length: number, query: Record<string, string> = {}): Promise<string> {
    return (await this.begin(length, query).expect(201)).body.id as string;
  }

  /** Sends a part; bare fetch, because the bytes must arrive as they are. */
  async patch(id: string, offset: number, bytes: Uint8Array, headers: Record<string, string> = {}, key = this.network.key) {
    const answer = await fetch(`${this.server.url}/v1/uploads/${id}`, { method: 'PATCH', body: Buffer.from(bytes), headers: { ...TUS, authorization: `Bearer ${key}`, 'content-type': PART, 'upload-offset': String(offset), ...headers } });
    const text = await answer.text();
    return { status: answer.status, offset: answer.headers.get('upload-offset'), body: text === '' ? {} : (JSON.parse(text) as Record<string, unknown>) };
  }

  async head(id: string, key = this.network.key) {
    const answer = await fetch(`${this.server.url}/v1/uploads/${id}`, { method: 'HEAD', headers: { ...TUS, authorization: `Bearer ${key}` } });
    return { status: answer.status, offset: answer.headers.get('upload-offset'), length: answer.headers.get('upload-length'), cache: answer.headers.get('cache-control') };
  }

  /** Uploads in parts and lets the worker look into it. */
  async uploaded(bytes: Uint8Array, query: Record<string, string> = {}, partBytes = bytes.length): Promise<StoredFile> {
    const id = await this.begun(bytes.length, query);
    for (let at = 0; at < bytes.length; at += partBytes) {
      const { status, body } = await this.patch(id, at, bytes.subarray(at, at + partBytes));
      if (status !== 204) throw new Error(`a part was refused: ${status} ${JSON.stringify(body)}`);
    }
    await this.work();
    return this.read(id);
  }

  /** Sends in one request. */
  send(bytes: Uint8Array, mediaType: string, query: Record<string, string> = {}, client: TestClient = this.network, headers: Record<string, string> = {}) {
    return client.post(`/v1/households/${this.household.id}/files?${new URLSearchParams({ itemId: this.itemId, ...query })}`, Buffer.from(bytes), { 'content-type': mediaType, ...headers });
  }

  async sent(bytes: Uint8Array, mediaType: string, query: Record<string, string> = {}): Promise<StoredFile> {
    const { body } = await this.send(bytes, mediaType, query).expect(201);
    await this.work();
    return this.read(body.id as string);
  }

  async read(id: string, headers: Record<string, string> = {}): Promise<StoredFile> {
    return (await this.network.get(`/v1/files/${id}`, headers).expect(200)).body as StoredFile;
  }

  /** Does what the worker does for all open rows about files, those that lie ahead with `ahead`. Answers the outcomes. */
  async work(ahead = false): Promise<string[]> {
    const { rows } = await this.server.admin.query<{ id: string; network_id: string; incident_id: string; kind: 'file.check' | 'file.sweep'; subject_id: string }>(
      "select id, network_id, incident_id, kind, subject_id from outbox where kind in ('file.check', 'file.sweep') and done_at is null and ($1 or not_before is null) order by kind, created_at", [ahead]);
    const outcomes: string[] = [];
    for (const row of rows) {
      const message = { id: row.id, incidentId: row.incident_id, kind: row.kind, subjectId: row.subject_id, traceparent: '' };
      const context = workerContext(row.network_id, 'test', '');
      const parts = { unitOfWork: this.server.unitOfWork, vault: this.vault, checker: this.checker };
      const env = { nowMs: this.server.clock.nowMs(), newId: () => newId() };
      outcomes.push(row.kind === 'file.check' ? await runFileCheck(parts, message, context, env) : await runFileSweep(parts, message, context, env));
    }
    return outcomes;
  }

  async link(id: string, body: object = {}): Promise<string> {
    return (await this.network.post(`/v1/files/${id}/links`, body).expect(201)).body.url as string;
  }

  /** What is behind a link. */
  async fetched(url: string): Promise<{ status: number; headers: Headers; bytes: Buffer }> {
    const answer = await fetch(`${this.server.url}${url}`);
    return { status: answer.status, headers: answer.headers, bytes: Buffer.from(await answer.arrayBuffer()) };
  }

  async objectsOf(id: string): Promise<{ name: string; role: string; state: string }[]> {
    return (await this.server.admin.query<{ name: string; role: string; state: string }>('select name, role, state from file_object where file_id = $1 order by role', [id])).rows;
  }
}

export const freshKey = () => ({ 'idempotency-key': `"${randomUUID()}"` });
