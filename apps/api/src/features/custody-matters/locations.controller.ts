import { Body, Controller, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { disputeLocation, recordFinding, reportMissing, settleLocation } from '#application';
import { DisputeLocation, ItemAndEventBody, ItemParams, RecordFinding, ReportMissing, SettleLocation } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentRecorded } from './matter.presenter.js';

type Item = z.output<typeof ItemParams>;

@Controller({ version: '1' })
@ApiTags('Custody')
export class LocationsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('items/:itemId/location-disputes')
  @Operation({
    id: 'disputeLocation',
    summary: 'Say that an item is elsewhere than on record',
    description:
      'The claim is kept and moves nothing: the keeper on record stays, and no other command moves the item, until a person who has it in front of them settles it (POST /v1/items/{itemId}/location-settlements). `seenAt` left out is now. Further claims add to the first. `note` stays beside the chain of custody and is shown with the open matters of the incident.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'tag_invalid', 'tag_unknown', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The claim is kept.', body: ItemAndEventBody },
  })
  dispute(@CallOf() call: Call, @Param({ schema: ItemParams }) params: Item, @Body({ schema: DisputeLocation }) { seenAt, ...body }: DisputeLocation) {
    return this.runner.command(call, disputeLocation, { ...params, ...body, seenAtMs: msOf(seenAt) }, presentRecorded);
  }

  @Post('items/:itemId/location-settlements')
  @Operation({
    id: 'settleLocation',
    summary: 'Settle where a disputed item is',
    description:
      'By a person who has it in front of them: `at` is where it is, the place on record included. `stage` says what is being done with it there where that is not as on record. The place must have room. A hand-over that was open stays open where the item lay with its giver, and is over where it lay elsewhere.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'item_missing', 'hand_over_open', 'capacity_full', 'consent_missing', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The location is settled.', body: ItemAndEventBody },
  })
  settle(@CallOf() call: Call, @Param({ schema: ItemParams }) params: Item, @Body({ schema: SettleLocation }) { seenAt, ...body }: SettleLocation) {
    return this.runner.command(call, settleLocation, { ...params, ...body, seenAtMs: msOf(seenAt) }, presentRecorded);
  }

  @Post('items/:itemId/missing-reports')
  @Operation({
    id: 'reportMissing',
    summary: 'Report that an item was looked for and not found',
    description: 'The keeper on record stays, as the last known one. No plan and no work list holds a missing item, and no command moves it, until somebody finds it (POST /v1/items/{itemId}/findings). It may be reported again when it was looked for again. `lookedAt` left out is now.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'It is on record as missing.', body: ItemAndEventBody },
  })
  missing(@CallOf() call: Call, @Param({ schema: ItemParams }) params: Item, @Body({ schema: ReportMissing }) { lookedAt, ...body }: ReportMissing) {
    return this.runner.command(call, reportMissing, { ...params, ...body, lookedAtMs: msOf(lookedAt) }, presentRecorded);
  }

  @Post('items/:itemId/findings')
  @Operation({
    id: 'recordFinding',
    summary: 'Record that a missing item was found',
    description:
      'By a person who has it in front of them: `at` is where it is now, and must have room. `stage` says what is being done with it there where that is not as on record: what was frozen and is found in a waiting area has thawed, and its clock runs again. A disputed location is settled with it. Look at its condition next (POST /v1/items/{itemId}/assessments).',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'hand_over_open', 'capacity_full', 'consent_missing', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'It is on record where it was found.', body: ItemAndEventBody },
  })
  found(@CallOf() call: Call, @Param({ schema: ItemParams }) params: Item, @Body({ schema: RecordFinding }) { seenAt, ...body }: RecordFinding) {
    return this.runner.command(call, recordFinding, { ...params, ...body, seenAtMs: msOf(seenAt) }, presentRecorded);
  }
}
