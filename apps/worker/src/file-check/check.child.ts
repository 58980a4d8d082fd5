/** A process that looks into one file and ends. It knows no secret and no address, and gives itself up when it grows too large. */
import { checkVoice, type FileVerdict } from '#application';
import { checkPhotograph } from './image.js';
import { type CheckAnswer, type CheckTask, READY } from './check-words.js';

const LOOK_MS = 20;

function answer(verdict: FileVerdict | null): void {
  const most = process.resourceUsage().maxRSS / 1_024;
  process.send?.({ verdict, peakMb: Math.round(most) } satisfies CheckAnswer, undefined, {}, () => process.exit(0));
}

process.on('disconnect', () => process.exit(1));
process.once('message', ({ kind, bytes, memoryMb }: CheckTask) => {
  // The decoder's memory is not that of the heap, so the whole process is looked at.
  setInterval(() => {
    if (process.memoryUsage.rss() > memoryMb * 1_048_576) process.exit(137);
  }, LOOK_MS).unref();
  const looked = kind === 'voice' ? Promise.resolve(checkVoice(bytes)) : checkPhotograph(bytes);
  looked.then(answer, () => answer(null));
});
process.send?.(READY);
