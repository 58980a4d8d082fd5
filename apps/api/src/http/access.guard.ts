import { type CanActivate, type ExecutionContext, Inject, Injectable } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyReply } from 'fastify';
import { Problem } from '#contracts';
import type { ApiRequest } from './call.js';
import { KeyRing } from './key-ring.js';
import { ACCESS, OPERATION_ID, type Access } from './operation.decorator.js';
import { RateLimits } from './rate-limits.js';

/** Closed by default: a handler that says nothing about its access answers nobody. */
@Injectable()
export class AccessGuard implements CanActivate {
  constructor(
    @Inject(Reflector) private readonly reflector: Reflector,
    @Inject(KeyRing) private readonly keys: KeyRing,
    @Inject(RateLimits) private readonly limits: RateLimits,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const access = this.reflector.get<Access | undefined>(ACCESS, context.getHandler());
    const request = context.switchToHttp().getRequest<ApiRequest>();
    request.operationId = this.reflector.get<string>(OPERATION_ID, context.getHandler());
    if (!access) throw new Problem('internal', 'The route declares no access.');
    if ('public' in access) return true;
    request.caller = await this.keys.callerOf(request);
    await this.limits.take(request.caller.context, context.switchToHttp().getResponse<FastifyReply>());
    if (!request.caller.scopes.has(access.scope)) throw new Problem('scope_missing', `This route needs the scope ${access.scope}. Ask a manager of your network for a key that has it.`, { members: { scope: access.scope } });
    return true;
  }
}
