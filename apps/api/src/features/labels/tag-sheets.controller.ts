import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { tagSheet, type SheetInput } from '#application';
import { PrintTagSheet, TagBlockParams, TagSheetQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { asPrinted, PDF } from '../../http/printed.js';
import { Runner } from '../../http/runner.js';
import { DOCUMENTS } from '../../http/tokens.js';
import type { DocumentThreads } from '../../threads/document-threads.js';

type Wanted = Omit<z.output<typeof TagSheetQuery>, 'template'> & Pick<SheetInput, 'template'>;

@Controller({ version: '1' })
@ApiTags('Tags')
export class TagSheetsController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(DOCUMENTS) private readonly documents: DocumentThreads) {}

  @Get('tag-blocks/:blockId/sheet')
  @Operation({
    id: 'getTagSheet',
    summary: 'Tags of a block for printing',
    description: 'PDF at exact size: print at 100 %. Each label has the symbol to scan, the code in large letters, the kind of tag, the incident, and a field to write in, in which the name of a place stands once its tag is tied. `firstPosition` is the first free label of a part-used sheet, `from` and `count` choose tags of the block, `cutLines` draws where to cut. Replaced tags are left out. One file holds 1,000 labels.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'command_refused'],
    success: { status: 200, description: 'The sheets.', body: null, mediaType: PDF },
  })
  sheet(@CallOf() call: Call, @Param({ schema: TagBlockParams }) params: z.output<typeof TagBlockParams>, @Query({ schema: TagSheetQuery }) query: z.output<typeof TagSheetQuery>) {
    return this.print(call, params.blockId, query);
  }

  @Post('tag-blocks/:blockId/sheet')
  @Operation({
    id: 'printTagSheet',
    summary: 'Tags of a block for printing on a sheet of your own measures',
    description: 'As `getTagSheet`, with the template in the request. Nothing is stored.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'command_refused', 'template_unfit', 'body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'The sheets.', body: null, mediaType: PDF },
  })
  own(@CallOf() call: Call, @Param({ schema: TagBlockParams }) params: z.output<typeof TagBlockParams>, @Body({ schema: PrintTagSheet }) body: z.output<typeof PrintTagSheet>) {
    return this.print(call, params.blockId, body);
  }

  private async print(call: Call, blockId: string, wanted: Wanted): Promise<unknown> {
    const language = wanted.language ?? call.language;
    const input = { blockId, template: wanted.template, from: wanted.from - 1, count: wanted.count ?? null, firstPosition: wanted.firstPosition - 1 };
    const sheet = await this.runner.query(call, tagSheet, input, async ({ block, incidentName, tags, template }) => ({
      body: await this.documents.draw(call.context.networkId, {
        document: 'label-sheet',
        sheet: { template, kind: block.kind, tags, incidentName, firstPosition: input.firstPosition, cutLines: wanted.cutLines, language, createdAtMs: block.createdAtMs },
      }),
    }));
    return asPrinted(call, sheet, language, 'tags.pdf');
  }
}
