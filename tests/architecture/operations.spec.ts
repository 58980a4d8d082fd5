import { describe, expect, test } from '@jest/globals';
import type { ExecutionContext } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { Problem, PROBLEMS, SCOPES, type Scope } from '#contracts';
import { AccessGuard } from '../../apps/api/src/http/access.guard.js';
import type { KeyRing } from '../../apps/api/src/http/key-ring.js';
import { ACCESS, OPERATION_ID, type Access } from '../../apps/api/src/http/operation.decorator.js';
import type { RateLimits } from '../../apps/api/src/http/rate-limits.js';
import { foldersIn, projectFiles, read } from './files.js';
import { controllers, handlers } from './operations.js';

const idOf = (handler: object) => Reflect.getMetadata(OPERATION_ID, handler) as string | undefined;
const accessOf = (handler: object) => Reflect.getMetadata(ACCESS, handler) as Access | undefined;

// OWASP API Security Top 10 2023, API5: deny by default, each handler says who may call it.
describe('every handler of the API', () => {
  test('is in the module tree: no controller file is left out', () => {
    const named = projectFiles().filter((path) => /^apps\/api\/src\/.*\.controller\.ts$/.test(path)).flatMap((path) => [...read(path).matchAll(/^export class (\w+)/gm)].map((match) => match[1] ?? ''));
    expect(controllers().map((controller) => controller.name).sort()).toEqual(named.sort());
  });

  test('declares its operation: an id, and one scope or that it is public', () => {
    expect(handlers().length).toBeGreaterThan(50);
    expect(handlers().filter(({ handler }) => idOf(handler) === undefined || accessOf(handler) === undefined).map(({ name }) => name)).toEqual([]);
    const wrong = handlers().filter(({ handler }) => {
      const access = accessOf(handler);
      return access === undefined || ('public' in access ? access.public !== true || 'scope' in access : !SCOPES.includes(access.scope));
    });
    expect(wrong.map(({ name }) => name)).toEqual([]);
  });

  test('has an id of its own', () => {
    const ids = handlers().map(({ handler }) => idOf(handler));
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  });

  test('is public only where there is nothing of anybody', () => {
    expect(handlers().filter(({ handler }) => 'public' in (accessOf(handler) ?? {})).map(({ handler }) => idOf(handler)).sort()).toEqual(['getLiveness', 'getReadiness']);
  });

  test('that says nothing about its access answers nobody', async () => {
    const refuse = () => Promise.reject(new Error('asked for a key although the route is closed'));
    const guard = new AccessGuard(new Reflector(), { callerOf: refuse } as unknown as KeyRing, { take: refuse } as unknown as RateLimits);
    const silent = () => undefined;
    const context = { getHandler: () => silent, switchToHttp: () => ({ getRequest: () => ({}), getResponse: () => ({}) }) } as unknown as ExecutionContext;
    const answer = await guard.canActivate(context).catch((error: unknown) => error);
    expect(answer).toBeInstanceOf(Problem);
    expect((answer as Problem).code).toBe('internal');
  });
});

test('every scope is needed by some route', () => {
  const used = new Set(handlers().flatMap(({ handler }) => {
    const access = accessOf(handler);
    return access && 'scope' in access ? [access.scope] : [];
  }));
  expect(SCOPES.filter((scope: Scope) => !used.has(scope))).toEqual([]);
});

test('every operation has a folder tests/api/<operation> with at least one spec, and every folder an operation', () => {
  const specs = projectFiles().filter((path) => /^tests\/api\/\w+\/.*\.spec\.ts$/.test(path)).map((path) => path.split('/')[2]);
  const ids = handlers().map(({ handler }) => idOf(handler) ?? '');
  expect({ operationsWithoutSpec: ids.filter((id) => !specs.includes(id)).sort(), foldersWithoutOperation: foldersIn('tests/api').filter((name) => !ids.includes(name) && name !== 'support') }).toEqual({ operationsWithoutSpec: [], foldersWithoutOperation: [] });
});

describe('the catalogue of problems', () => {
  interface Documented {
    description?: string;
  }
  const documented = new Set(
    handlers().flatMap(({ handler }) =>
      Object.values((Reflect.getMetadata('swagger/apiResponse', handler) as Record<string, Documented> | undefined) ?? {}).flatMap((answer) => [...(answer.description ?? '').matchAll(/`([a-z_]+)`: /g)].map((match) => match[1] ?? '')),
    ),
  );
  const thrown = new Set(
    projectFiles()
      .filter((path) => /^(libs|apps)\/.*\.ts$/.test(path) && !path.endsWith('contracts/src/problems.ts') && !path.includes('/generated/'))
      .flatMap((path) => [...read(path).matchAll(/'([a-z]+(?:_[a-z]+)*)'/g)].map((match) => match[1] ?? '')),
  );

  test('holds every code that a route documents', () => {
    expect(documented.size).toBeGreaterThan(20);
    expect([...documented].filter((code) => !(code in PROBLEMS))).toEqual([]);
  });

  test('holds no code that nothing ever answers', () => {
    expect(Object.keys(PROBLEMS).filter((code) => !thrown.has(code))).toEqual([]);
  });

  test('holds no code that no route documents, but for those that are answered before a route is found or where links to files lead', () => {
    const beforeTheRoute = ['body_malformed', 'route_not_found', 'method_not_allowed', 'range_not_satisfiable'];
    expect(Object.keys(PROBLEMS).filter((code) => !documented.has(code) && !beforeTheRoute.includes(code))).toEqual([]);
  });

  test('has a title for each code that does not vary and a status of its kind', () => {
    for (const [code, { status, title }] of Object.entries(PROBLEMS)) expect([code, /^[45]\d\d$/.test(String(status)), title.length > 8 && !title.endsWith('.')]).toEqual([code, true, true]);
  });
});
