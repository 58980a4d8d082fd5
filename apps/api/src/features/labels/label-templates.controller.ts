import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { addLabelTemplate, getLabelTemplate, listLabelTemplates } from '#application';
import { AddLabelTemplate, CalibrationPageQuery, LabelTemplateParams, NamedLabelTemplateBody, PageQuery, pageOf } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { asPrinted, PDF } from '../../http/printed.js';
import { Runner } from '../../http/runner.js';
import { DOCUMENTS } from '../../http/tokens.js';
import type { DocumentThreads } from '../../threads/document-threads.js';
import { presentLabelTemplate } from './label-template.presenter.js';

@Controller({ version: '1' })
@ApiTags('Tags')
export class LabelTemplatesController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(Pages) private readonly pages: Pages, @Inject(DOCUMENTS) private readonly documents: DocumentThreads) {}

  @Get('label-templates')
  @Operation({
    id: 'listLabelTemplates',
    summary: 'Sheets and rolls that tags can be printed on',
    description: 'Those that come with the program, named by paper and by the size of a label, then the network’s own. All of them are only measures: any sheet can be written down.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['cursor_invalid'],
    success: { status: 200, description: 'A page of templates.', body: pageOf(NamedLabelTemplateBody) },
  })
  list(@CallOf() call: Call, @Query({ schema: PageQuery }) { limit, cursor }: z.output<typeof PageQuery>) {
    const after = this.pages.read(call, cursor, {})?.[0] ?? null;
    return this.runner.query(call, listLabelTemplates, { limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, {}, (row) => [row.id], (row) => presentLabelTemplate(row, call.language)), language: call.language,
    }));
  }

  @Post('label-templates')
  @Operation({
    id: 'addLabelTemplate',
    summary: 'Write down the measures of a sheet',
    description: 'Measure the sheet with a ruler: margins, the size of a label, and the distance from label to label. A grid that does not fit its page is refused with what to change. Made by a key that is limited to an incident, it belongs to that incident.',
    access: { scope: 'intake:write' },
    command: true,
    speaks: true,
    problems: ['template_unfit'],
    success: { status: 201, description: 'The template.', body: NamedLabelTemplateBody },
  })
  add(@CallOf() call: Call, @Body({ schema: AddLabelTemplate }) body: z.output<typeof AddLabelTemplate>) {
    return this.runner.command(call, addLabelTemplate, body, (made) => ({ status: 201, body: presentLabelTemplate(made, call.language), language: call.language }));
  }

  @Get('label-templates/:templateId/calibration-page')
  @Operation({
    id: 'printCalibrationPage',
    summary: 'A page to try a template on plain paper',
    description: 'PDF with rulers in millimetres both ways, the frames of all labels, and what to do when they do not lie where they should.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The page.', body: null, mediaType: PDF },
  })
  async calibration(@CallOf() call: Call, @Param({ schema: LabelTemplateParams }) params: z.output<typeof LabelTemplateParams>, @Query({ schema: CalibrationPageQuery }) query: z.output<typeof CalibrationPageQuery>) {
    const language = query.language ?? call.language;
    const page = await this.runner.query(call, getLabelTemplate, params, async ({ name, template, own }) => ({
      body: await this.documents.draw(call.context.networkId, { document: 'calibration-page', page: { name, template, language, createdAtMs: own?.createdAtMs ?? 0 } }),
    }));
    return asPrinted(call, page, language, 'calibration-page.pdf');
  }
}
