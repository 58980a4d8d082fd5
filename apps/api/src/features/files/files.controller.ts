import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { deleteFile, getFile, listHouseholdFiles, listItemFiles, showable } from '#application';
import { DeleteFile, FileBody, FileLinkBody, FileListQuery, FileParams, HouseholdParams, ItemParams, MakeFileLink, pageOf } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { FileLinks } from '../../http/file-links.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { iso } from '../../presenters/time.js';
import { presentFile } from './file.presenter.js';

@Controller({ version: '1' })
@ApiTags('Files')
export class FilesController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(Pages) private readonly pages: Pages, @Inject(FileLinks) private readonly links: FileLinks) {}

  @Get('files/:fileId')
  @Operation({
    id: 'getFile',
    summary: 'Read what is known of a file',
    description: 'What it belongs to, how far it is, and what became of it: kept (and what was taken out of it), or refused (and why). The bytes come by a link.',
    access: { scope: 'file:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The file.', body: FileBody },
  })
  get(@CallOf() call: Call, @Param({ schema: FileParams }) params: z.output<typeof FileParams>) {
    return this.runner.query(call, getFile, params, (view) => ({ body: presentFile(view, call.language), language: call.language }));
  }

  @Get('items/:itemId/files')
  @Operation({
    id: 'listItemFiles',
    summary: 'List the files of an item',
    description: 'Photographs, recordings and words that belong to it, oldest first; what is kept, or with `everyState` everything.',
    access: { scope: 'file:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'A page of files.', body: pageOf(FileBody) },
  })
  ofItem(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: FileListQuery }) { limit, cursor, everyState }: z.output<typeof FileListQuery>) {
    const filter = { ...params, everyState };
    const after = this.pages.read(call, cursor, filter)?.[0] ?? null;
    return this.runner.query(call, listItemFiles, { ...filter, limit: limit + 1, after }, (views) => ({ body: this.pages.answer(call, views, limit, filter, ({ file }) => [file.id], (view) => presentFile(view, call.language)), language: call.language }));
  }

  @Get('households/:householdId/files')
  @Operation({
    id: 'listHouseholdFiles',
    summary: 'List the files of a household',
    description: 'Those of all its items and those of the household as a whole, oldest first; what is kept, or with `everyState` everything.',
    access: { scope: 'file:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'A page of files.', body: pageOf(FileBody) },
  })
  ofHousehold(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Query({ schema: FileListQuery }) { limit, cursor, everyState }: z.output<typeof FileListQuery>) {
    const filter = { ...params, everyState };
    const after = this.pages.read(call, cursor, filter)?.[0] ?? null;
    return this.runner.query(call, listHouseholdFiles, { ...filter, limit: limit + 1, after }, (views) => ({ body: this.pages.answer(call, views, limit, filter, ({ file }) => [file.id], (view) => presentFile(view, call.language)), language: call.language }));
  }

  @Post('files/:fileId/links')
  @Operation({
    id: 'makeFileLink',
    summary: 'Make a link that leads to a file for some minutes',
    description:
      'For a picture in a page or a recording to play, without a key: whoever has the link sees the file until it ends. `specialist` and `publication` need the owner’s word (consent `photograph`), asked again whenever the link is followed. What is marked as sensitive is never published, and stands on the page of its family only with `sensitiveToo`. That the link was made is in the audit.',
    access: { scope: 'file:read' },
    command: true,
    problems: ['not_found', 'file_state', 'file_sensitive', 'consent_missing', 'owner_unknown'],
    success: { status: 201, description: 'The link.', body: FileLinkBody },
  })
  link(@CallOf() call: Call, @Param({ schema: FileParams }) params: z.output<typeof FileParams>, @Body({ schema: MakeFileLink }) { download, ...body }: z.output<typeof MakeFileLink>) {
    const { networkId } = call.context;
    return this.runner.command(call, showable, { ...params, ...body }, (file) => {
      const { path, expiresAtMs } = this.links.make({ ...body, fileId: file.id, networkId, download });
      return { status: 201, body: { id: file.id, url: path, expiresAt: iso(expiresAtMs) } };
    });
  }

  @Post('files/:fileId/deletions')
  @Operation({
    id: 'deleteFile',
    summary: 'Delete a file',
    description: 'With who wants it and why. The bytes are removed at once; that there was a file, and why it is gone, stays on record. Links to it lead nowhere from now on.',
    access: { scope: 'file:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'file_state', 'reference_unknown', 'household_erased'],
    success: { status: 200, description: 'The file is deleted.', body: FileBody },
  })
  delete(@CallOf() call: Call, @Param({ schema: FileParams }) params: z.output<typeof FileParams>, @Body({ schema: DeleteFile }) body: z.output<typeof DeleteFile>) {
    return this.runner.command(call, deleteFile, { ...params, ...body }, (file) => ({ body: presentFile({ file, deletedReason: body.reason }, call.language), language: call.language }));
  }
}
