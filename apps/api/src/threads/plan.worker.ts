/** A thread that thinks plans through: one question in, one answer out, as often as it is asked. */
import { parentPort } from 'node:worker_threads';
import { explained, planLoad, unpackGround } from '#application';
import { Problem } from '#contracts';
import type { PlanAnswer, PlanTask } from './plan-threads.js';

async function think(task: PlanTask): Promise<PlanAnswer> {
  if (task.about === 'item') return { about: 'item', explanation: explained(task.read, await unpackGround(task.read.packed)) };
  return { about: 'load', load: planLoad(task.parts, await unpackGround(task.parts.packed)) };
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
