import { Body, Controller, Delete, Get, HttpCode, Inject, Options, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiHeader, ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { beginUpload, type BeginUploadInput, getFile, getUpload } from '#application';
import { BeginUploadQuery, FileBody, HouseholdParams, Problem, UploadParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { UPLOAD_PART } from '../../http/fastify.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentFile } from './file.presenter.js';
import { TusUploads } from './tus-uploads.js';

const TusVersion = ApiHeader({ name: 'Tus-Resumable', required: true, description: 'Version of the upload protocol: `1.0.0`.', schema: { type: 'string', examples: ['1.0.0'] } });

/** Large files over bad lines: the open protocol tus 1.0, with its extensions "creation" and "termination". */
@Controller({ version: '1' })
@ApiTags('Files')
export class UploadsController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(TusUploads) private readonly tus: TusUploads) {}

  @Post('households/:householdId/uploads')
  @ApiHeader({ name: 'Upload-Length', required: true, description: 'Bytes of the whole file.', schema: { type: 'integer', examples: [2_411_004] } })
  @TusVersion
  @Operation({
    id: 'beginUpload',
    summary: 'Begin an upload that can be resumed',
    description: 'The extension "creation" of tus 1.0: any tus client can go on from the address in Location. The query says what the file belongs to. A file name in Upload-Metadata is ignored and kept nowhere. An upload that is not finished by `expiresAt` ends by itself.',
    access: { scope: 'file:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'reference_unknown', 'consent_missing', 'uploads_full', 'tus_version'],
    success: { status: 201, description: 'The upload is begun; send its parts to the address in Location.', body: FileBody },
  })
  begin(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Query({ schema: BeginUploadQuery }) query: z.output<typeof BeginUploadQuery>) {
    requireVersion(call);
    const input: BeginUploadInput = { ...params, ...query, language: null, bytes: announced(call) };
    call.reply.header('tus-resumable', '1.0.0');
    return this.runner.command(call, beginUpload, input, (file) => ({ status: 201, body: presentFile({ file, deletedReason: null }, call.language), language: call.language, location: `/v1/uploads/${file.id}` }));
  }

  @Options('households/:householdId/uploads')
  @HttpCode(204)
  @Operation({
    id: 'describeUploads',
    summary: 'Ask what the upload protocol can do here',
    description: 'The answer is in the headers Tus-Version and Tus-Extension.',
    access: { scope: 'file:write' },
    problems: [],
    success: { status: 204, description: 'Version and extensions of the protocol, as headers.', body: null },
  })
  describe(@CallOf() call: Call, @Param({ schema: HouseholdParams }) _params: z.output<typeof HouseholdParams>) {
    return this.tus.answer(call);
  }

  /** HEAD comes here as well: it is how the protocol asks where an upload stands. */
  @Get('uploads/:uploadId')
  @Operation({
    id: 'getUpload',
    summary: 'Ask where an upload stands',
    description: 'With HEAD, which any tus client sends before it resumes, the answer is the header Upload-Offset. With GET it is the file as it is.',
    access: { scope: 'file:write' },
    speaks: true,
    problems: ['not_found', 'upload_expired', 'tus_version'],
    success: { status: 200, description: 'The upload.', body: FileBody },
  })
  async stand(@CallOf() call: Call, @Param({ schema: UploadParams }) params: z.output<typeof UploadParams>) {
    if (call.request.method === 'HEAD') return this.tus.answer(call);
    await this.runner.query(call, getUpload, { fileId: params.uploadId }, () => ({ body: null }));
    return this.runner.query(call, getFile, { fileId: params.uploadId }, (view) => ({ body: presentFile(view, call.language), language: call.language }));
  }

  @Patch('uploads/:uploadId')
  @HttpCode(204)
  @ApiConsumes(UPLOAD_PART)
  @ApiBody({ description: 'The bytes from Upload-Offset on, as many as you like.', schema: { type: 'string', format: 'binary' } })
  @ApiHeader({ name: 'Upload-Offset', required: true, description: 'Byte of the file at which this part begins: where the upload stands.', schema: { type: 'integer', examples: [0] } })
  @TusVersion
  @Operation({
    id: 'continueUpload',
    summary: 'Send the next part of an upload',
    description: 'What is acknowledged outlives a power cut. When the line breaks off, what had arrived is kept; ask with HEAD and go on. Sent twice, a part counts once. After the last part the file is looked into in the background: read the file to see whether it was kept.',
    access: { scope: 'file:write' },
    problems: ['not_found', 'upload_offset', 'upload_expired', 'uploads_full', 'household_erased', 'tus_version', 'body_too_large', 'media_type_unsupported'],
    success: { status: 204, description: 'The part is here; Upload-Offset says how far it is now.', body: null },
  })
  continue(@CallOf() call: Call, @Param({ schema: UploadParams }) _params: z.output<typeof UploadParams>, @Body() _body: unknown) {
    return this.tus.answer(call);
  }

  @Delete('uploads/:uploadId')
  @HttpCode(204)
  @TusVersion
  @Operation({
    id: 'endUpload',
    summary: 'End an upload that is not finished',
    description: 'The extension "termination" of tus 1.0: what had arrived is freed, and the address answers 410 from then on. A finished upload is refused, as its file belongs to an event; it is deleted with `deleteFile`.',
    access: { scope: 'file:write' },
    problems: ['not_found', 'upload_expired', 'file_state', 'tus_version', 'unavailable'],
    success: { status: 204, description: 'The upload has ended.', body: null },
  })
  end(@CallOf() call: Call, @Param({ schema: UploadParams }) _params: z.output<typeof UploadParams>) {
    return this.tus.answer(call);
  }
}

function requireVersion(call: Call): void {
  if (call.request.headers['tus-resumable'] !== '1.0.0') throw new Problem('tus_version', 'Send Tus-Resumable: 1.0.0.');
}

function announced(call: Call): number {
  const header = call.request.headers['upload-length'];
  const bytes = typeof header === 'string' && /^[1-9][0-9]{0,9}$/.test(header) ? Number(header) : 0;
  if (bytes > 0) return bytes;
  throw new Problem('validation_failed', 'Say with Upload-Length how many bytes the file has. An empty file is not taken.', { errors: [{ detail: 'is a whole number from 1', code: 'invalid', parameter: 'Upload-Length' }] });
}
