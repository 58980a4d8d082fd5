import { type DynamicModule, Module } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_PIPE } from '@nestjs/core';
import type { ConfigWork, FileVault, UnitOfWork } from '#application';
import type { Pool } from '#persistence';
import type { Clock, Logger } from '#platform';
import { features } from './features/index.js';
import { HealthController } from './health/health.controller.js';
import { AccessGuard } from './http/access.guard.js';
import { FileLinks } from './http/file-links.js';
import { KeyRing } from './http/key-ring.js';
import { Pages } from './http/pages.js';
import { ProblemFilter } from './http/problem.filter.js';
import { RateLimits } from './http/rate-limits.js';
import { Runner } from './http/runner.js';
import { ACCEPTANCE, type ApiSettings, CLOCK, CONFIG_WORK, DOCUMENTS, LOGGER, PLANS, POOL, SETTINGS, UNIT_OF_WORK, VAULT } from './http/tokens.js';
import { ContractPipe } from './http/validation.pipe.js';
import type { AcceptanceThreads } from './threads/acceptance-threads.js';
import type { DocumentThreads } from './threads/document-threads.js';
import type { PlanThreads } from './threads/plan-threads.js';

/** What the API is composed of; the same for the server, the tests and the document generator. */
export interface ApiParts {
  unitOfWork: UnitOfWork;
  configWork: ConfigWork;
  clock: Clock;
  pool: Pool;
  logger: Logger;
  settings: ApiSettings;
  /** Ended with the API. */
  acceptance: AcceptanceThreads;
  /** Likewise. */
  plans: PlanThreads;
  /** Likewise. */
  documents: DocumentThreads;
  /** Where the bytes of files lie. */
  vault: FileVault;
}

/** Shared by all features: transactions, paging, keys, limits. */
@Module({})
class HttpModule {
  static with(parts: ApiParts): DynamicModule {
    const shared = [
      { provide: UNIT_OF_WORK, useValue: parts.unitOfWork },
      { provide: CONFIG_WORK, useValue: parts.configWork },
      { provide: CLOCK, useValue: parts.clock },
      { provide: POOL, useValue: parts.pool },
      { provide: LOGGER, useValue: parts.logger },
      { provide: SETTINGS, useValue: parts.settings },
      { provide: ACCEPTANCE, useValue: parts.acceptance },
      { provide: PLANS, useValue: parts.plans },
      { provide: DOCUMENTS, useValue: parts.documents },
      { provide: VAULT, useValue: parts.vault },
      FileLinks,
      Runner,
      Pages,
      KeyRing,
      RateLimits,
      ProblemFilter,
    ];
    return { module: HttpModule, global: true, providers: shared, exports: shared };
  }
}

@Module({})
export class AppModule {
  static with(parts: ApiParts): DynamicModule {
    return {
      module: AppModule,
      imports: [HttpModule.with(parts), ...features],
      controllers: [HealthController],
      providers: [
        { provide: APP_GUARD, useClass: AccessGuard },
        { provide: APP_FILTER, useExisting: ProblemFilter },
        { provide: APP_PIPE, useClass: ContractPipe },
      ],
    };
  }
}
