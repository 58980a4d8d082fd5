/** A thread that thinks plans through: one question in, one answer out, as often as it is asked. */
import { parentPort } from 'node:worker_threads';
import { explained, planLoad, unpackGround } from '#application';
import { Problem } from '#contracts';
import type { PlanAnswer, PlanTask } from './plan-threads.js';

async function think(task: PlanTask): Promise<PlanAnswer> {
  const { packed, ...read } = task.read;
  const ground = await unpackGround(packed);
  return 'itemId' in read ? { about: 'item', explanation: explained(read, ground) } : { about: 'load', load: planLoad(read, ground) };
}

async function answer(task: PlanTask): Promise<PlanAnswer> {
  try {
    return await think(task);
  } catch (error) {
    if (error instanceof Problem) return { problem: { code: error.code, detail: error.detail, extras: error.extras } };
    return { error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

parentPort?.on('message', (task: PlanTask) => void answer(task).then((told) => parentPort?.postMessage(told, [])));
