import { type Environment, type FileChecker, type FileVault, giveUpFileSweep, runFileCheck, runFileSweep, type UnitOfWork } from '#application';
import type { GiveUps, Handlers } from '#messaging';
import type { Logger } from '#platform';
import { inTurn } from './in-turn.js';

interface FileWorkParts {
  unitOfWork: UnitOfWork;
  vault: FileVault;
  checker: FileChecker;
  environment(): Environment;
  logger: Logger;
}

type FileKinds = 'file.check' | 'file.sweep';

/** What the worker does with uploads: looks into what came whole, ends what did not, and removes what is let go of. */
export function fileWork({ unitOfWork, vault, checker, environment, logger }: FileWorkParts): { handlers: Pick<Handlers, FileKinds>; giveUps: Pick<GiveUps, FileKinds> } {
  // One file of a network at a time: a hundred photographs of one leave room for another's, and memory is bounded.
  const oneAtATime = inTurn();
  return {
    handlers: {
      'file.check': async (message, context) => {
        const outcome = await oneAtATime(context.networkId, () => runFileCheck({ unitOfWork, vault, checker }, message, context, environment()));
        logger.info({ fileId: message.subjectId, outcome }, 'file looked into');
      },
      'file.sweep': async (message, context) => {
        const outcome = await runFileSweep({ unitOfWork, vault }, message, context, environment());
        logger.debug({ fileId: message.subjectId, outcome }, 'files swept');
      },
    },
    giveUps: {
      // It stays received, with its bytes: nothing of a family is thrown away because we could not look. The dead row can be revived.
      'file.check': () => Promise.resolve(),
      'file.sweep': (message, context) => giveUpFileSweep(unitOfWork, message, context, environment()),
    },
  };
}
