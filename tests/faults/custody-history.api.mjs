// The API with one seeded bug, for the fault runs: the built program, in which one method is replaced before it starts. It exists for the
// tests alone; what it replaces is checked to be there, so that a renamed method cannot make a bug silently go away.
import { setTimeout as sleep } from 'node:timers/promises';
import { PgUnitOfWork } from '#persistence';
import { PgCustodyStore } from '../../dist/libs/persistence/src/stores/pg-custody-store.js';
import { PgItemStore } from '../../dist/libs/persistence/src/stores/pg-item-store.js';

/** Milliseconds between the answer and the end of its transaction: so long that every kill finds some commands between the two, however few a busy machine gets done. */
const AFTERWARDS_MS = 1_000;
const COMPARISON = /\s+and seq = \$4 - 1 and head_hash = \$18/;

const bugs = {
  'no-idempotency-record': () =>
    replace(PgUnitOfWork, 'command', () => function command(context, _identity, work) {
      return this.write(context, async (stores) => ({ ...(await work(stores)), replayed: false }));
    }),
  'no-compare-and-set': () => {
    replace(PgItemStore, 'lock', () => PgItemStore.prototype.find);
    replace(PgCustodyStore, 'append', (append) => function careless(...args) {
      const { client } = this;
      const loose = ({ name, text, values }) => {
        if (!COMPARISON.test(text)) throw new Error('the comparison is not where it was');
        return client.query({ name: `${name}_careless`, text: text.replace(COMPARISON, ''), values });
      };
      return append.apply({ ...this, client: { query: loose } }, args);
    });
  },
  'answer-before-commit': () =>
    replace(PgUnitOfWork, 'command', (command) => function hasty(context, identity, work) {
      // The set-up of the run needs what it is told to be there.
      if (identity.operation !== 'recordPassing') return command.call(this, context, identity, work);
      return new Promise((resolve, reject) => {
        const early = async (stores) => {
          const answer = await work(stores);
          resolve({ ...answer, replayed: false });
          await sleep(AFTERWARDS_MS);
          return answer;
        };
        command.call(this, context, identity, early).then(resolve, reject);
      });
    }),
};

function replace(Class, name, by) {
  const method = Class.prototype[name];
  if (typeof method !== 'function') throw new Error(`${Class.name} has no ${name}`);
  Class.prototype[name] = by(method);
}

const seed = bugs[process.env.WRACKLINE_TEST_BUG];
if (seed === undefined) throw new Error('name a bug in WRACKLINE_TEST_BUG');
seed();
await import('../../dist/apps/api/src/main.js');
