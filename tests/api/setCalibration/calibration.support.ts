import type { Test } from 'supertest';
import type { Workbench } from '../support/workbench.js';

/** Sets one number with the ETag that a GET shows now. */
export async function setNumber(bench: Workbench, address: string, value: number | null, change: { reason?: string; personId?: string; etag?: string } = {}): Promise<Test> {
  const etag = change.etag ?? (await bench.network.get('/v1/calibration').expect(200)).headers['etag'] ?? '';
  return bench.network.put(`/v1/calibration/${address}`, { value, reason: change.reason ?? 'Measured in our hall.', personId: change.personId ?? bench.incident.person('P1') }, { 'if-match': etag }) as unknown as Test;
}

/** One number as a GET shows it. */
export async function shown(bench: Workbench, address: string): Promise<{ inForce: number; default: number; decision: unknown; lapsed: boolean } | undefined> {
  const { body } = await bench.network.get('/v1/calibration').expect(200);
  return body.numbers.find(({ library, key }: { library: string; key: string }) => `${library}/${key}` === address);
}
