import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import type { PlanGround } from '../ports/plan-ground-store.js';

const pack = promisify(gzip);
const unpack = promisify(gunzip);

/** The ground of a plan as one compressed document: some megabytes of numbers and ids become a few hundred kilobytes. */
export function packGround(ground: PlanGround): Promise<Uint8Array> {
  return pack(JSON.stringify(ground));
}

/** Reads what `packGround` made; of a large incident that takes long, so it is for a thread. */
export async function unpackGround(packed: Uint8Array): Promise<PlanGround> {
  return JSON.parse((await unpack(packed)).toString('utf8')) as PlanGround;
}
