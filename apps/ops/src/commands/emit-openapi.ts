import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { createLogger, projectRoot, systemClock } from '#platform';

/** Writes the OpenAPI document of the code as it is; no database is touched. */
export async function run(args: string[]): Promise<number> {
  const file = args[0] ?? join(projectRoot(), 'libs', 'client', 'openapi.json');
  const { createApi } = await import('../../../api/src/server.js');
  const { API_VERSION } = await import('../../../api/src/compose.js');
  const { acceptanceThreads } = await import('../../../api/src/threads/acceptance-threads.js');
  const { documentThreads } = await import('../../../api/src/threads/document-threads.js');
  const { planThreads } = await import('../../../api/src/threads/plan-threads.js');
  // Nothing runs against these parts: building the document only reads decorators.
  const absent = {};
  const api = await createApi({
    unitOfWork: absent as never, configWork: absent as never, pool: absent as never, vault: absent as never, clock: systemClock, logger: createLogger('emit', 'silent'),
    settings: { cursorSecret: 'not used when only the document is built', ratePerMinute: 1, redisUrl: null, version: API_VERSION },
    acceptance: acceptanceThreads(),
    plans: planThreads(),
    documents: documentThreads(),
  });
  await writeFile(file, `${JSON.stringify(api.document, null, 2)}\n`);
  await api.close();
  return 0;
}
