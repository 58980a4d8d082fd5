import { Body, Controller, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { splitLot } from '#application';
import { LotParams, LotSplitBody, SplitLot } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentItem } from '../../presenters/item.presenter.js';
import { msOf } from '../../presenters/time.js';

@Controller({ version: '1' })
@ApiTags('Items')
export class LotSplitsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('incidents/:incidentId/items/:itemId/splits')
  @Operation({
    id: 'splitLot',
    summary: 'Take counted pieces out of a lot',
    description:
      'When a table, a bath or a freezer takes only part of a lot. The part becomes an item of its own under a reserved tag, where the lot lies and in the same stage, with what was seen, tested, done and agreed so far; both are triaged anew for what they count, and a new plan is asked for. ' +
      'Counts, areas, volumes and masses of both add up exactly. The custody record of the lot names the part, and that of the part begins by naming the lot. Where either goes next is recorded by events of its own. A split is not undone: count first.',
    access: { scope: 'custody:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'item_terminal', 'wrong_stage', 'tag_invalid', 'tag_unknown', 'tag_taken', 'reference_unknown', 'command_refused', 'incident_closed'],
    success: { status: 201, description: 'The part and the lot as they are now; ETag and Location are those of the part.', body: LotSplitBody },
  })
  split(@CallOf() call: Call, @Param({ schema: LotParams }) params: z.output<typeof LotParams>, @Body({ schema: SplitLot }) body: SplitLot) {
    const { splitAt, ...rest } = body;
    const input = { ...params, ...rest, splitAtMs: msOf(splitAt), expectedVersion: call.expectedVersion() };
    return this.runner.command(call, splitLot, input, ({ part, lot, planRunId }) => ({ status: 201, body: { part: presentItem(part), lot: presentItem(lot), planRunId }, version: part.version, location: `/v1/items/${part.id}` }));
  }
}
