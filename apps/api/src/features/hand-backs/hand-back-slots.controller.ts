import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { bookAppointment, endAppointment, listHandBackSlots, openHandBackSlots } from '#application';
import { AppointmentBody, AppointmentParams, BookAppointment, BookedAppointmentBody, EndAppointment, HandBackSiteParams, HandBackSlotBody, OpenedSlotsBody, OpenHandBackSlots, pageOf, SlotListQuery, SlotParams } from '#contracts';
import { makeHandBackCode, newId } from '#platform';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentAppointment, presentSlot } from './appointment.presenter.js';

/** When families come to fetch their things. */
@Controller({ version: '1' })
@ApiTags('Hand-backs')
export class HandBackSlotsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('sites/:siteId/hand-back-slots')
  @Operation({
    id: 'openHandBackSlots',
    summary: 'Open slots for hand-backs',
    description: 'So many slots of the same length, one after the other, each for so many families. Slots of the same times that are there already stay as they are.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found'],
    success: { status: 201, description: 'The slots that are new.', body: OpenedSlotsBody },
  })
  open(@CallOf() call: Call, @Param({ schema: HandBackSiteParams }) params: z.output<typeof HandBackSiteParams>, @Body({ schema: OpenHandBackSlots }) body: z.output<typeof OpenHandBackSlots>) {
    const { startsAt, ...rest } = body;
    return this.runner.command(call, openHandBackSlots, { ...params, ...rest, startsAtMs: Date.parse(startsAt) }, ({ opened, there }) => ({ status: 201, body: { opened: opened.map(presentSlot), there } }));
  }

  @Get('sites/:siteId/hand-back-slots')
  @Operation({
    id: 'listHandBackSlots',
    summary: 'List slots for hand-backs',
    description: 'Those of a site that are not over, in the order of their beginnings, with the places that are free. No family stands in it.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of slots.', body: pageOf(HandBackSlotBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: HandBackSiteParams }) params: z.output<typeof HandBackSiteParams>, @Query({ schema: SlotListQuery }) query: z.output<typeof SlotListQuery>) {
    const { limit, cursor, from } = query;
    const filter = { ...params, from: from ?? null };
    const [startsAtMs, id] = this.pages.read(call, cursor, filter) ?? [];
    const after = startsAtMs === undefined || id === undefined ? null : { startsAtMs: Number(startsAtMs), id };
    return this.runner.query(call, listHandBackSlots, { ...params, fromMs: msOf(from ?? null), limit: limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, limit, filter, (row) => [String(row.startsAtMs), row.id], presentSlot) }));
  }

  @Post('hand-back-slots/:slotId/appointments')
  @Operation({
    id: 'bookAppointment',
    summary: 'Book a place in a slot for a household',
    description: 'A slot never holds more families than it has places for. The answer shows a one-time code for the family once; only its hash is kept. A repeated request answers the same without the code.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'capacity_full', 'reference_unknown', 'command_refused', 'owner_unknown'],
    success: { status: 201, description: 'The appointment, with its code.', body: BookedAppointmentBody },
  })
  async book(@CallOf() call: Call, @Param({ schema: SlotParams }) params: z.output<typeof SlotParams>, @Body({ schema: BookAppointment }) body: z.output<typeof BookAppointment>) {
    const appointmentId = newId();
    const { code, kept } = makeHandBackCode();
    const input = { ...params, ...body };
    const answer = await this.runner.command(call, (stores, about, given: typeof input) => bookAppointment(stores, about, given, { appointmentId, code: kept }), input, (appointment) => ({ status: 201, body: presentAppointment(appointment) }));
    const shown = answer as z.output<typeof BookedAppointmentBody>;
    // The code joins the answer after it was stored, and only where this very request made the appointment.
    return shown.id === appointmentId ? { ...shown, code } : shown;
  }

  @Post('hand-back-appointments/:appointmentId/outcomes')
  @Operation({
    id: 'endAppointment',
    summary: 'Record that an appointment was not kept',
    description: 'Called off (its place is free again), nobody came (the dated path of what is not fetched begins, with a named person who decides), or somebody was turned away because they could not show who they are: how it was checked and what came of it is kept, never a number of a document. A hand-back that names the appointment keeps it.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'reference_unknown', 'command_refused'],
    success: { status: 200, description: 'The appointment as it ended.', body: AppointmentBody },
  })
  end(@CallOf() call: Call, @Param({ schema: AppointmentParams }) params: z.output<typeof AppointmentParams>, @Body({ schema: EndAppointment }) body: z.output<typeof EndAppointment>) {
    return this.runner.command(call, endAppointment, { ...params, ...body }, (appointment) => ({ body: presentAppointment(appointment) }));
  }
}
