import 'reflect-metadata';
import type { DynamicModule, Type } from '@nestjs/common';
import { AppModule, type ApiParts } from '../../apps/api/src/app.module.js';

export interface Handler {
  name: string;
  handler: object;
}

type Imported = Type<unknown> | DynamicModule | { forwardRef: () => Type<unknown> };

/** Every controller of the application's module tree, as Nest would find it. */
export function controllers(): Type<unknown>[] {
  const found = new Set<Type<unknown>>();
  const seen = new Set<unknown>();
  const visit = (module: Imported): void => {
    if (seen.has(module)) return;
    seen.add(module);
    if ('forwardRef' in module) return visit(module.forwardRef());
    const type = 'module' in module ? module.module : module;
    const own = 'module' in module ? module : {};
    const lists = (name: 'controllers' | 'imports') => [...((Reflect.getMetadata(name, type) as unknown[] | undefined) ?? []), ...((own as Partial<Record<string, unknown[]>>)[name] ?? [])];
    for (const controller of lists('controllers')) found.add(controller as Type<unknown>);
    for (const next of lists('imports')) visit(next as Imported);
    if ('module' in module) visit(type);
  };
  // The tree is the same whatever the parts are; nothing is built here.
  visit(AppModule.with({} as ApiParts));
  return [...found];
}

/** Every method of a controller that answers a route. */
export function handlers(): Handler[] {
  return controllers().flatMap((controller) => {
    const prototype = controller.prototype as Record<string, object>;
    return Object.getOwnPropertyNames(prototype)
      .filter((name) => name !== 'constructor' && typeof prototype[name] === 'function' && Reflect.hasMetadata('path', prototype[name] as object))
      .map((name) => ({ name: `${controller.name}.${name}`, handler: prototype[name] as object }));
  });
}
