import supertest from 'supertest';
import { newId } from '#platform';
import type { TestServer } from '#testing';
import type { Operation } from './document.js';
import type { Parts } from './row.js';

const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/gi;

export interface Got {
  status: number;
  /** The body as it came. */
  text: string;
  body: Record<string, unknown>;
  headers: Record<string, string>;
}

/** Sends one request of an operation with the key of a caller; every send is a new command. */
export async function send(server: TestServer, operation: Operation, parts: Parts, key: string | null): Promise<Got> {
  const path = operation.path.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = parts.params?.[name];
    if (value === undefined) throw new Error(`the row of ${operation.id} gives no ${name}`);
    return encodeURIComponent(value);
  });
  const query = new URLSearchParams(parts.query).toString();
  const http = supertest(server.url) as unknown as Record<string, (path: string) => supertest.Test>;
  const start = http[operation.method];
  if (!start) throw new Error(`the matrix does not know the method ${operation.method}`);
  const request = start.call(http, query === '' ? path : `${path}?${query}`).set('idempotency-key', newId());
  if (key !== null) request.set('authorization', `Bearer ${key}`);
  if (parts.ifMatch !== undefined) request.set('if-match', parts.ifMatch);
  if (parts.headers !== undefined) request.set(parts.headers);
  if (parts.body !== undefined) {
    request.set('content-type', parts.contentType ?? (operation.method === 'patch' ? 'application/merge-patch+json' : 'application/json'));
    request.send(typeof parts.body === 'string' ? parts.body : JSON.stringify(parts.body));
  }
  const answer = await request.buffer(true);
  return { status: answer.status, text: answer.text ?? '', body: (answer.body ?? {}) as Record<string, unknown>, headers: answer.headers as Record<string, string> };
}

/** The same value with every id in it exchanged for one that never was; equal ids stay equal. */
export function withRandomIds<T>(value: T, isId: (id: string) => boolean = () => true): T {
  const fresh = new Map<string, string>();
  const text = JSON.stringify(value).replace(UUID, (id) => {
    if (!isId(id)) return id;
    if (!fresh.has(id)) fresh.set(id, newId());
    return fresh.get(id) ?? id;
  });
  return JSON.parse(text) as T;
}

/** What two answers to unknown things must share: all but the marks of the single request. */
export function comparable(got: Got): unknown {
  const { instance: _instance, traceId: _traceId, ...body } = got.body;
  return { status: got.status, body, headers: Object.keys(got.headers).sort(), type: got.headers['content-type'] };
}

export function uuidsIn(text: string): string[] {
  return (text.match(UUID) ?? []).map((id) => id.toLowerCase());
}
