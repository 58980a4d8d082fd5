import type { Config, Logger } from '#platform';
import { type Work, type WorkParts, type WorkerOptions, startWorker } from './start-worker.js';

/** Runs the worker as a process of its own until SIGTERM or SIGINT: then it finishes what it is doing and exits 0. */
export async function runWorkerProcess(config: Config, logger: Logger, compose: (parts: WorkParts) => Work, options: WorkerOptions = {}): Promise<void> {
  const worker = await startWorker(config, logger, compose, options);
  let stopping = false;
  const stop = () => {
    if (stopping) return;
    stopping = true;
    worker.stop().then(
      () => process.exit(0),
      (error: unknown) => {
        logger.error({ err: error instanceof Error ? error.message : String(error) }, 'worker stopped with trouble');
        process.exit(1);
      },
    );
  };
  process.on('SIGTERM', stop);
  process.on('SIGINT', stop);
  // A parent that died by kill -9 cannot send a signal; its channel closes.
  process.on('disconnect', stop);
  await worker.ready;
  process.send?.({ ready: true });
}
