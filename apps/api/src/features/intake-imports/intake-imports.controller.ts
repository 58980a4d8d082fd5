import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getIntakeImport, listIntakeImportRows, refusedRowsFile, submitIntakeImport, TABLE_MEDIA_TYPES, type TableMediaType } from '#application';
import { IncidentParams, IntakeImportBody, IntakeImportParams, IntakeImportRowBody, IntakeImportRowsQuery, INTAKE_FILE_DESCRIPTION, pageOf, Problem, SubmitIntakeImportQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentIntakeImport, presentIntakeImportRow } from './intake-import.presenter.js';

@Controller({ version: '1' })
@ApiTags('Intake files')
export class IntakeImportsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/intake-imports')
  @ApiConsumes(...TABLE_MEDIA_TYPES)
  @ApiBody({ description: INTAKE_FILE_DESCRIPTION, schema: { type: 'string', format: 'binary' } })
  @Operation({
    id: 'submitIntakeImport',
    summary: 'Send a file of arrivals',
    description: 'Paper slips keyed in later, or the list of a partner. A file that cannot be read is refused whole with every reason; the rows of a readable one are worked through in the background, and a bad row never stops the others. The same file again for the same site answers the earlier import.',
    access: { scope: 'intake:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'reference_unknown', 'command_refused', 'incident_closed'],
    success: { status: 201, description: 'The file is taken; follow its progress at the address in Location.', body: IntakeImportBody },
    alsoSuccess: { status: 200, description: 'The same file was sent before: the earlier import.', body: IntakeImportBody },
  })
  submit(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: SubmitIntakeImportQuery }) query: z.output<typeof SubmitIntakeImportQuery>, @Body() body: unknown) {
    const input = { ...params, ...query, mediaType: mediaTypeOf(call), content: bytesOf(body) };
    return this.runner.command(call, submitIntakeImport, input, ({ record, created }) => ({ status: created ? 201 : 200, body: presentIntakeImport(record, call.language), language: call.language, location: `/v1/intake-imports/${record.id}` }));
  }

  @Get('intake-imports/:importId')
  @Operation({
    id: 'getIntakeImport',
    summary: 'Read the progress of an intake file',
    description: 'How the file was read, how many rows are done, and what became of them in numbers.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The import.', body: IntakeImportBody },
  })
  get(@CallOf() call: Call, @Param({ schema: IntakeImportParams }) params: z.output<typeof IntakeImportParams>) {
    return this.runner.query(call, getIntakeImport, params, (record) => ({ body: presentIntakeImport(record, call.language), language: call.language }));
  }

  @Get('intake-imports/:importId/rows')
  @Operation({
    id: 'listIntakeImportRows',
    summary: 'List the rows of an intake file',
    description: 'The rows that are done so far, in file order, of one outcome or of all, with everything that was said about each.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of rows.', body: pageOf(IntakeImportRowBody) },
  })
  rows(@CallOf() call: Call, @Param({ schema: IntakeImportParams }) params: z.output<typeof IntakeImportParams>, @Query({ schema: IntakeImportRowsQuery }) query: z.output<typeof IntakeImportRowsQuery>) {
    const { limit, cursor, outcome = null } = query;
    const filter = { ...params, outcome };
    const afterRow = Number(this.pages.read(call, cursor, filter)?.[0] ?? 0);
    return this.runner.query(call, listIntakeImportRows, { ...filter, limit: limit + 1, afterRow }, (rows) => ({
      body: this.pages.answer(call, rows, limit, filter, (row) => [String(row.rowNumber)], (row) => presentIntakeImportRow(row, call.language)),
      language: call.language,
    }));
  }

  @Get('intake-imports/:importId/refused-rows')
  @Operation({
    id: 'getRefusedRows',
    summary: 'Get the refused rows as a file to mend',
    description: 'CSV after RFC 4180 with the columns of the file that was sent and `_problem`, which says what to mend in the language asked for. Cells that a spreadsheet would take for a formula have an apostrophe before them. Mend it and send it as a new file: `_problem` and the apostrophes are recognised. It holds contacts as they came.',
    access: { scope: 'household:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The file; only its header line when no row was refused so far.', body: null, mediaType: 'text/csv' },
  })
  async refusedRows(@CallOf() call: Call, @Param({ schema: IntakeImportParams }) params: z.output<typeof IntakeImportParams>) {
    const body = await this.runner.query(call, refusedRowsFile, { ...params, language: call.language }, ({ text }) => ({ body: text, language: call.language }));
    call.reply.header('content-type', 'text/csv; charset=utf-8; header=present').header('content-disposition', `attachment; filename="refused-rows-${params.importId}.csv"`);
    return body;
  }
}

/** The media type without its parameters; the encoding is found out from the bytes, because senders rarely know it. */
function mediaTypeOf(call: Call): TableMediaType {
  const sent = call.request.headers['content-type']?.split(';')[0]?.trim().toLowerCase();
  const known = TABLE_MEDIA_TYPES.find((type) => type === sent);
  if (known === undefined) throw new Problem('media_type_unsupported', `Send the file as it is, as ${TABLE_MEDIA_TYPES.join(' or ')}.`);
  return known;
}

function bytesOf(body: unknown): Uint8Array {
  if (!Buffer.isBuffer(body)) throw new Problem('body_malformed', 'The body is empty. Send the bytes of the file.');
  return new Uint8Array(body.buffer, body.byteOffset, body.byteLength);
}
