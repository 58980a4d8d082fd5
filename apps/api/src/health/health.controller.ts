import { Controller, Get, Inject } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { z } from 'zod';
import { Problem } from '#contracts';
import type { Pool } from '#persistence';
import { Operation } from '../http/operation.decorator.js';
import { POOL } from '../http/tokens.js';

const Health = z.strictObject({ status: z.literal('ok') }).meta({ id: 'Health', examples: [{ status: 'ok' }] });

@Controller('health')
@ApiTags('Service')
export class HealthController {
  constructor(@Inject(POOL) private readonly pool: Pool) {}

  @Get('live')
  @Operation({ id: 'getLiveness', summary: 'Is the process alive?', description: 'Answers as soon as the process runs.', access: { public: true }, success: { status: 200, description: 'It is.', body: Health } })
  live(): { status: 'ok' } {
    return { status: 'ok' };
  }

  @Get('ready')
  @Operation({ id: 'getReadiness', summary: 'Can the process serve?', description: 'Answers 200 when the database answers, 503 otherwise.', access: { public: true }, success: { status: 200, description: 'It can.', body: Health } })
  async ready(): Promise<{ status: 'ok' }> {
    await this.pool.query('select 1').catch(() => {
      throw new Problem('unavailable', 'The database does not answer.', { retryAfterS: 2 });
    });
    return { status: 'ok' };
  }
}
