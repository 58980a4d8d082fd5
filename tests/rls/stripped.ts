import type pg from 'pg';
import { createPool, type Pool } from '#persistence';

/**
 * A condition on the network: by itself or behind an alias, in our SQL and in the ORM's. What takes its place keeps the
 * parameter and its type, so that the rest of the statement stays as it is.
 */
const CONDITION = /(?:"?\w+"?\.){0,3}"?network_id"? = (?:CAST\()?\$(\d+)(?:::uuid)?(?: AS uuid\))?/g;
const JOIN = /(?:"?\w+"?\.){1,3}"?network_id"? = (?:"?\w+"?\.){1,3}"?network_id"?/g;

/** The statement without its conditions on the network, neither against a parameter nor between tables. */
export function stripped(text: string): string {
  return text.replace(JOIN, 'true').replace(CONDITION, '($$$1::uuid is not null)');
}

export interface StrippedPool {
  pool: Pool;
  /** Statements as they were sent, of those that lost a condition. */
  changed: string[];
  /** Looks with the eyes of the transaction that runs; this statement is sent as it is. */
  look: Pick<pg.Pool, 'query'>;
}

/** A pool like the program's own whose clients send every statement without its conditions on the network. */
export function strippedPool(connectionString: string): StrippedPool {
  const pool = createPool({ connectionString, max: 1, applicationName: 'drill', onError: () => undefined });
  const changed: string[] = [];
  let untouched: ((...args: unknown[]) => unknown) | undefined;
  pool.on('connect', (client) => {
    const send = client.query.bind(client) as (...args: unknown[]) => unknown;
    untouched = send;
    Object.assign(client, { query: (first: unknown, ...rest: unknown[]) => send(rewrite(first, changed), ...rest) });
  });
  const query = (...args: unknown[]) => {
    if (!untouched) throw new Error('nothing has run on this pool yet');
    return untouched(...args);
  };
  return { pool, changed, look: { query } as unknown as Pick<pg.Pool, 'query'> };
}

function rewrite(first: unknown, changed: string[]): unknown {
  const text = typeof first === 'string' ? first : (first as { text?: string }).text;
  if (text === undefined) return first;
  const without = stripped(text);
  if (without === text) return first;
  changed.push(without);
  return typeof first === 'string' ? without : { ...(first as object), text: without };
}
