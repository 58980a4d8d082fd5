// A process that works one intake file through with the built program, to be killed in the middle.
import { runIntakeImport } from '#application';
import { workerContext } from '#messaging';
import { PgUnitOfWork, createPool } from '#persistence';
import { newId, parseMasterKeys } from '#platform';

const { url, masterKey, networkId, outboxId, importId, nowMs } = JSON.parse(process.argv[2]);
const pool = createPool({ connectionString: url, max: 2, applicationName: 'import-under-test', onError: () => undefined });
await runIntakeImport(new PgUnitOfWork(pool, parseMasterKeys(masterKey, 'test')), { id: outboxId, subjectId: importId }, workerContext(networkId, 'killed', ''), { nowMs, newId: () => newId() });
await pool.end();
