import createFetchClient, { type Client } from 'openapi-fetch';
import type { paths } from './generated/schema.js';

export type { components, paths } from './generated/schema.js';
export type WracklineClient = Client<paths>;

/** A typed client of the API. `baseUrl` without a trailing slash; `apiKey` is sent as a bearer token, never in an address. */
export function createClient(options: { baseUrl: string; apiKey: string; fetch?: (request: Request) => Promise<Response> }): WracklineClient {
  return createFetchClient<paths>({
    baseUrl: options.baseUrl,
    headers: { authorization: `Bearer ${options.apiKey}` },
    ...(options.fetch ? { fetch: options.fetch } : {}),
  });
}
