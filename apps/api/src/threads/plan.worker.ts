/** A thread that thinks plans through: one question in, one answer out, as often as it is asked. */
import { parentPort } from 'node:worker_threads';
import { deadlinesOf, explained, groundOfStation, planLoad, unpackGround } from '#application';
import { answerOf } from './crossing.js';
import type { PlanAnswer, PlanTask } from './plan-threads.js';

async function think(task: PlanTask): Promise<PlanAnswer> {
  const ground = await unpackGround(task.read.packed);
  if (task.about === 'item') return { about: 'item', explanation: explained(task.read, ground) };
  if (task.about === 'station') return { about: 'station', ground: groundOfStation(ground, task.read.stationId) };
  if (task.about === 'deadlines') return { about: 'deadlines', deadlines: deadlinesOf(ground) };
  // What was asked comes back with the answer, but for what it was read from.
  const { packed: _, ...parts } = task.read;
  return { about: 'load', load: planLoad(parts, ground) };
}

parentPort?.on('message', (task: PlanTask) => void answerOf(() => think(task)).then((answer) => parentPort?.postMessage(answer, [])));
