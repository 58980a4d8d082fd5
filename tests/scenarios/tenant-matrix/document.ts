import { SCOPES, type Scope } from '#contracts';
import type { TestServer } from '#testing';

interface Schema {
  $ref?: string;
  properties?: Record<string, Schema>;
  items?: Schema;
  anyOf?: Schema[];
  oneOf?: Schema[];
  allOf?: Schema[];
}

interface RawOperation {
  operationId: string;
  description?: string;
  security?: unknown[];
  parameters?: { name: string; in: string }[];
  requestBody?: { content: Record<string, { schema: Schema }> };
  responses: Record<string, { description: string }>;
}

/** One operation of the served document, as far as the matrix reads it. */
export interface Operation {
  id: string;
  method: string;
  path: string;
  /** null: public. */
  scope: Scope | null;
  pathParams: string[];
  /** Those of them that name something: ids and tags, no words of ours. */
  named: string[];
  successes: number[];
  /** Problem codes by their documentation, per status. */
  problems: Map<number, string>;
  /** `#/siteId`, `#/items/0/itemId`, `?siteId`: members whose names or types say that they name something. */
  referenceMembers: string[];
}

const METHODS = ['get', 'post', 'put', 'patch', 'delete'];

/** Every operation that the server documents. */
export function operationsOf(server: TestServer): Operation[] {
  const { paths, components } = server.document as unknown as { paths: Record<string, Record<string, RawOperation>>; components: { schemas: Record<string, Schema> } };
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods)
      .filter(([method]) => METHODS.includes(method))
      .map(([method, raw]) => toOperation(method, path, raw, components.schemas)),
  );
}

function toOperation(method: string, path: string, raw: RawOperation, schemas: Record<string, Schema>): Operation {
  const statuses = Object.keys(raw.responses).map(Number);
  const pathParams = [...path.matchAll(/\{(\w+)\}/g)].map((match) => match[1] ?? '');
  return {
    id: raw.operationId,
    method,
    path,
    scope: scopeOf(raw),
    pathParams,
    named: pathParams.filter((name) => /Id$|^tag$/.test(name)),
    successes: statuses.filter((status) => status < 400),
    problems: new Map(statuses.filter((status) => status >= 400).map((status) => [status, raw.responses[String(status)]?.description ?? ''])),
    referenceMembers: [
      ...(raw.parameters ?? []).filter((parameter) => parameter.in === 'query' && /Ids?$/.test(parameter.name)).map((parameter) => `?${parameter.name}`),
      ...Object.values(raw.requestBody?.content ?? {}).flatMap((media) => membersOf(media.schema, schemas, '#')),
    ],
  };
}

/** The scope that the description promises; a route with security and without a named scope is a fault of the document. */
function scopeOf(raw: RawOperation): Scope | null {
  if (!raw.security || raw.security.length === 0) return null;
  const named = /Needs the scope `([^`]+)`/.exec(raw.description ?? '')?.[1];
  const scope = SCOPES.find((candidate) => candidate === named);
  if (!scope) throw new Error(`${raw.operationId} needs a key but its description names no scope`);
  return scope;
}

/** Members named ...Id or ...Ids, and keepers, wherever they stand in a body. */
function membersOf(schema: Schema | undefined, schemas: Record<string, Schema>, at: string, depth = 0): string[] {
  if (!schema || depth > 8) return [];
  if (schema.$ref !== undefined) {
    const name = schema.$ref.split('/').at(-1) ?? '';
    return name === 'Keeper' ? [at] : membersOf(schemas[name], schemas, at, depth + 1);
  }
  const inside = Object.entries(schema.properties ?? {}).flatMap(([name, member]) => {
    const own = `${at}/${name}`;
    return /Ids?$/.test(name) ? [own] : membersOf(member, schemas, own, depth + 1);
  });
  const choices = [...(schema.anyOf ?? []), ...(schema.oneOf ?? []), ...(schema.allOf ?? [])].flatMap((choice) => membersOf(choice, schemas, at, depth + 1));
  return [...new Set([...inside, ...choices, ...membersOf(schema.items, schemas, `${at}/0`, depth + 1)])];
}
