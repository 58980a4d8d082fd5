import { Problem, type ProblemCode, type ProblemExtras } from '#contracts';

/** How a refusal or an error crosses from a thread: as plain data. */
export type Failed = { problem: { code: ProblemCode; detail: string; extras: ProblemExtras } } | { error: string };

/** In the thread: what the work answers, or how it failed. */
export async function answerOf<Answer>(work: () => Answer | Promise<Answer>): Promise<Answer | Failed> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Problem) return { problem: { code: error.code, detail: error.detail, extras: error.extras } };
    return { error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

/** On this side: the answer. @throws Problem what the work refused; Error when it failed, with the name of its thread */
export function answered<Answer extends object>(answer: Answer | Failed, thread: string): Answer {
  if (!hasFailed(answer)) return answer;
  if ('problem' in answer) throw new Problem(answer.problem.code, answer.problem.detail, answer.problem.extras);
  throw new Error(`the ${thread} thread failed: ${answer.error}`);
}

function hasFailed(answer: object): answer is Failed {
  return 'problem' in answer || 'error' in answer;
}
