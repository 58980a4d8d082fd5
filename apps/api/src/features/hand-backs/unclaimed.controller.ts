import { Body, Controller, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { decideUnclaimed, openUnclaimed } from '#application';
import { DecideUnclaimed, ItemParams, OpenUnclaimed, UnclaimedBody, UncollectedParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentUnclaimed } from './appointment.presenter.js';

/** What was found and nobody claims: notices at the desk by date, then two people decide. */
@Controller({ version: '1' })
@ApiTags('Hand-backs')
export class UnclaimedController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('items/:itemId/unclaimed')
  @Operation({
    id: 'openUnclaimed',
    summary: 'Begin to wait for the owner of a found thing',
    description: 'As for a household that does not fetch its things, with nobody to remind: hang up the notice (`getFoundNotice`) and look after it on two dates, each recorded with `recordReminder`. After the third date two people decide. The days are our own calibration (library `found`) unless you give others; they are no periods of law. Local law on found property decides: ask the authority.',
    access: { scope: 'household:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'owner_known', 'already_exists', 'reference_unknown', 'command_refused', 'incident_closed', 'item_terminal'],
    success: { status: 201, description: 'The dates.', body: UnclaimedBody },
  })
  open(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: OpenUnclaimed }) body: z.output<typeof OpenUnclaimed>) {
    const { noticedAt, ...rest } = body;
    return this.runner.command(call, openUnclaimed, { ...params, ...rest, noticedAtMs: msOf(noticedAt) }, (view) => ({ status: 201, body: presentUnclaimed(view, view.path.openedAtMs, call.language), language: call.language }));
  }

  @Post('uncollected/:uncollectedId/unclaimed-decisions')
  @Operation({
    id: 'decideUnclaimed',
    summary: 'Say what becomes of a found thing that nobody claimed',
    description: 'Once the time has passed, by two people, each with a key of their own: the one who was named and another, a lead among them. `hand-to-authority` and `dispose` need both, both notices on record, no open claim and no legal hold (on the found things of the incident, or on a household that has claimed it), and are carried out with `releaseItem`. One who would keep it, or two who do not agree, keep it, and it is waited for anew. Local law on found property decides: ask the authority first, and write down in `reason` what it said.',
    access: { scope: 'household:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'already_exists', 'claim_person', 'legal_hold', 'reference_unknown', 'command_refused', 'incident_closed', 'item_terminal'],
    success: { status: 201, description: 'The path as it stands.', body: UnclaimedBody },
  })
  decide(@CallOf() call: Call, @Param({ schema: UncollectedParams }) params: z.output<typeof UncollectedParams>, @Body({ schema: DecideUnclaimed }) body: z.output<typeof DecideUnclaimed>) {
    return this.runner.command(call, decideUnclaimed, { ...params, ...body }, (view) => ({ status: 201, body: presentUnclaimed(view, view.path.endedAtMs, call.language), language: call.language }));
  }
}
