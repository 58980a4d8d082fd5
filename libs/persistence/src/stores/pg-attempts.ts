import type { Attempts } from '#application';
import type { Client } from '../pool.js';

export class PgAttempts implements Attempts {
  constructor(private readonly client: Client) {}

  async within<T>(work: () => Promise<T>): Promise<T> {
    await this.client.query('savepoint attempt');
    try {
      const result = await work();
      await this.client.query('release savepoint attempt');
      return result;
    } catch (error) {
      // Where even this fails the connection is gone: the first error says more, and the transaction is lost either way.
      await this.client.query('rollback to savepoint attempt; release savepoint attempt').catch(() => undefined);
      throw error;
    }
  }
}
