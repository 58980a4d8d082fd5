// A process that works one intake file through with the built program until it has written so many rows, and then stands in the middle, to be killed there.
import { runIntakeImport } from '#application';
import { workerContext } from '#messaging';
import { PgUnitOfWork, createPool } from '#persistence';
import { newId, parseMasterKeys } from '#platform';

const { url, masterKey, networkId, outboxId, importId, nowMs, standsAfter } = JSON.parse(process.argv[2]);
const pool = createPool({ connectionString: url, max: 2, applicationName: 'import-under-test', onError: () => undefined });
const work = new PgUnitOfWork(pool, parseMasterKeys(masterKey, 'test'));
let tied = 0;

/** Every row of the file ties one tag, so ties are rows. */
function counting(stores) {
  const tags = Object.create(stores.tags);
  tags.tie = async (...given) => {
    if (tied === standsAfter) {
      process.stdout.write('stands\n');
      await new Promise(() => undefined);
    }
    tied += 1;
    return stores.tags.tie(...given);
  };
  return { ...stores, tags };
}

const standing = {
  read: (context, task) => work.read(context, task),
  command: (context, identity, task) => work.command(context, identity, task),
  write: (context, task) => work.write(context, (stores) => task(counting(stores))),
};
await runIntakeImport(standing, { id: outboxId, subjectId: importId }, workerContext(networkId, 'killed', ''), { nowMs, newId: () => newId() });
await pool.end();
