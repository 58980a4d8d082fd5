import { Body, Controller, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import { createHash } from 'node:crypto';
import type { z } from 'zod';
import { appendPart, beginUpload, type BeginUploadInput, type FileVault, getFile, getUpload, keepWords, type UnitOfWork, wordsBytes } from '#application';
import { FILE_MEDIA_TYPES, FileBody, HouseholdParams, Problem, SendFileQuery, WriteWords } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { UNIT_OF_WORK, VAULT } from '../../http/tokens.js';
import { presentFile } from './file.presenter.js';

/** What fits into one request. Both go the way of an upload; sent again with the same key they do what was left undone. */
@Controller({ version: '1' })
@ApiTags('Files')
export class SmallFilesController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(UNIT_OF_WORK) private readonly unitOfWork: UnitOfWork, @Inject(VAULT) private readonly vault: FileVault) {}

  @Post('households/:householdId/files')
  @ApiConsumes(...Object.keys(FILE_MEDIA_TYPES))
  @ApiBody({ description: 'The bytes of the file as they are, at most 10 MiB.', schema: { type: 'string', format: 'binary' } })
  @Operation({
    id: 'sendFile',
    summary: 'Send a small file in one request',
    description: 'For good lines; anything larger, or over a bad line, goes by an upload that can be resumed. The media type says only whether it is a photograph or a recording: what it is, its bytes say. It is looked into in the background.',
    access: { scope: 'file:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'reference_unknown', 'consent_missing', 'uploads_full', 'upload_offset', 'upload_expired', 'household_erased'],
    success: { status: 201, description: 'The file is here and waits to be looked into.', body: FileBody },
  })
  async send(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Query({ schema: SendFileQuery }) query: z.output<typeof SendFileQuery>, @Body() body: unknown) {
    const bytes = bytesOf(body);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    if (query.sha256 !== null && query.sha256 !== sha256) throw new Problem('validation_failed', 'What arrived has another SHA-256 than was said. Send it again.', { errors: [{ detail: 'is not that of the bytes that arrived', code: 'checksum', parameter: 'sha256' }] });
    const fileId = await this.begin(call, { ...params, ...query, kind: kindOf(call), language: null, bytes: bytes.length, sha256 });
    const about = this.runner.about(call);
    const { state, offsetBytes } = await this.unitOfWork.read(call.context, (stores) => getUpload(stores, about, { fileId }));
    if (state === 'receiving') await appendPart({ unitOfWork: this.unitOfWork, vault: this.vault }, about, { fileId, atByte: offsetBytes, bytes: bytes.subarray(offsetBytes) });
    return this.asItIs(call, fileId);
  }

  @Post('households/:householdId/words')
  @Operation({
    id: 'writeWords',
    summary: 'Write down what a family says of a thing',
    description: 'Its memories in its own words, kept with the item or the household and sealed with the key of the household. They are never changed; what is wrong is deleted and written anew.',
    access: { scope: 'file:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'reference_unknown', 'uploads_full', 'upload_expired', 'household_erased'],
    success: { status: 201, description: 'The words are kept.', body: FileBody },
  })
  async write(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: WriteWords }) { text, ...body }: z.output<typeof WriteWords>) {
    const bytes = wordsBytes(text);
    const fileId = await this.begin(call, { ...params, ...body, kind: 'words', bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') });
    await keepWords({ unitOfWork: this.unitOfWork, vault: this.vault }, this.runner.about(call), { fileId, text });
    return this.asItIs(call, fileId);
  }

  /** The command proper: sent again with the same key and the same bytes it answers the same file. */
  private async begin(call: Call, input: BeginUploadInput): Promise<string> {
    const begun = (await this.runner.command(call, beginUpload, input, ({ id }) => ({ status: 201, body: { id }, location: `/v1/files/${id}` }))) as { id: string };
    return begun.id;
  }

  private asItIs(call: Call, fileId: string): Promise<unknown> {
    return this.runner.query(call, getFile, { fileId }, (view) => ({ status: 201, body: presentFile(view, call.language), language: call.language }));
  }
}

function kindOf(call: Call): 'photograph' | 'voice' {
  const sent = call.request.headers['content-type']?.split(';')[0]?.trim().toLowerCase() ?? '';
  if (sent in FILE_MEDIA_TYPES) return FILE_MEDIA_TYPES[sent as keyof typeof FILE_MEDIA_TYPES];
  throw new Problem('media_type_unsupported', `Send the file as it is, as ${Object.keys(FILE_MEDIA_TYPES).join(', ')}.`);
}

function bytesOf(body: unknown): Buffer {
  if (!Buffer.isBuffer(body)) throw new Problem('media_type_unsupported', `Send the bytes of the file as they are, as ${Object.keys(FILE_MEDIA_TYPES).join(', ')}.`);
  if (body.length === 0) throw new Problem('body_malformed', 'The body is empty. Send the bytes of the file.');
  return body;
}
