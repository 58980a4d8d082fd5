import { type ArgumentMetadata, Injectable, type PipeTransform } from '@nestjs/common';
import type { z } from 'zod';
import { Problem, type ProblemError } from '#contracts';

type Issues = readonly { message: string; path?: readonly (PropertyKey | { key: PropertyKey })[] | undefined }[];

/** Checks body, query and path against their contract; every fault is named with a pointer and a sentence. */
@Injectable()
export class ContractPipe implements PipeTransform<unknown, Promise<unknown>> {
  async transform(value: unknown, metadata: ArgumentMetadata): Promise<unknown> {
    const schema = metadata.schema;
    if (!schema || metadata.type === 'custom') return value;
    const result = await schema['~standard'].validate(value);
    if (!result.issues) return result.value;
    if (metadata.type === 'param') throw new Problem('not_found', 'No such thing is visible to your key: the address holds something that is not an id.');
    throw failed(result.issues, metadata.type === 'body');
  }
}

/** The same check of a body that came on a route which takes files as well. @throws Problem validation_failed */
export function requireContract<T>(schema: z.ZodType<T>, value: unknown, part: 'body' | 'query'): T {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  throw failed(result.error.issues, part === 'body');
}

function failed(issues: Issues, isBody: boolean): Problem {
  const errors = toErrors(issues, isBody);
  return new Problem('validation_failed', `${errors.length === 1 ? 'One value needs' : `${errors.length} values need`} your attention; see errors. Nothing was changed.`, { errors });
}

/** At most this many faults are named at once. */
const NAMED_AT_MOST = 50;

function toErrors(issues: Issues, isBody: boolean): ProblemError[] {
  return issues.flatMap((issue) => namedPaths(issue).map((path) => toError(issue, path, isBody))).slice(0, NAMED_AT_MOST);
}

/** The path of an issue; unknown members are named one by one, where they stand. */
function namedPaths(issue: Issues[number]): string[][] {
  const path = (issue.path ?? []).map((segment) => String(typeof segment === 'object' ? segment.key : segment));
  if ('code' in issue && issue.code === 'unrecognized_keys' && 'keys' in issue && Array.isArray(issue.keys)) return issue.keys.map((key) => [...path, String(key)]);
  return [path];
}

function toError(issue: Issues[number], path: string[], isBody: boolean): ProblemError {
  const code = 'code' in issue && typeof issue.code === 'string' ? issue.code : 'invalid';
  const detail = code === 'unrecognized_keys' ? 'is not a member of this body; check its spelling or leave it out' : issue.message;
  const place = isBody ? { pointer: `#${path.map((part) => `/${part.replaceAll('~', '~0').replaceAll('/', '~1')}`).join('')}` } : { parameter: path.join('.') };
  return { detail, code, ...place };
}
