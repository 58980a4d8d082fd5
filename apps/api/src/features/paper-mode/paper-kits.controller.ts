import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getPaperKit, keyPaperLogLines, keyPaperSlips, makePaperKit, paperKitToPrint } from '#application';
import { HandBackSiteParams, KeyPaperLogLines, KeyPaperSlips, LineVerdictsBody, MakePaperKit, NewPaperKitBody, PaperKitBody, PaperKitParams, PaperQuery, SlipVerdictsBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { asPrinted, PDF } from '../../http/printed.js';
import { Runner } from '../../http/runner.js';
import { DOCUMENTS } from '../../http/tokens.js';
import { msOf } from '../../presenters/time.js';
import type { DocumentThreads } from '../../threads/document-threads.js';
import { presentLineVerdicts, presentNewKit, presentPaperKit, presentVerdicts } from './paper-kit.presenter.js';

/** Work on paper while there is no power, and its way back into the record. */
@Controller({ version: '1' })
@ApiTags('Items')
export class PaperKitsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(DOCUMENTS) private readonly documents: DocumentThreads,
  ) {}

  @Post('sites/:siteId/paper-kits')
  @Operation({
    id: 'makePaperKit',
    summary: 'Prepare slips of paper for a power cut',
    description: 'Numbered slips for one site, each with a tag that is reserved for it, and a numbered sheet for each station and place that the site has now. Print the kit while there is power, and its tags with `getTagSheet`.',
    access: { scope: 'intake:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'command_refused'],
    success: { status: 201, description: 'The kit, with the tags of its slips.', body: NewPaperKitBody },
  })
  make(@CallOf() call: Call, @Param({ schema: HandBackSiteParams }) params: z.output<typeof HandBackSiteParams>, @Body({ schema: MakePaperKit }) body: z.output<typeof MakePaperKit>) {
    return this.runner.command(call, makePaperKit, { ...params, ...body }, (made) => ({ status: 201, body: presentNewKit(made), location: `/v1/paper-kits/${made.kit.id}` }));
  }

  @Get('paper-kits/:kitId')
  @Operation({
    id: 'getPaperKit',
    summary: 'Hold the printed slips against what was keyed',
    description: 'Every number of the kit: keyed with its item, void with its reason, or missing until somebody finds it. With the time that was written, the time at which it was keyed, and by whom. Of each station log and place sheet: how many lines were keyed, how many are void, and which numbers in between nobody has keyed.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The kit.', body: PaperKitBody },
  })
  get(@CallOf() call: Call, @Param({ schema: PaperKitParams }) params: z.output<typeof PaperKitParams>) {
    return this.runner.query(call, getPaperKit, params, (view) => ({ body: presentPaperKit(view) }));
  }

  @Get('paper-kits/:kitId/print')
  @Operation({
    id: 'printPaperKit',
    summary: 'Print a kit for a power cut',
    description: 'One PDF: a page of instructions, an intake slip to a page (numbered, with its tag and its symbol to scan, boxes to tick and room to write with gloves on), a log for each station and a sheet for each place that the site had when the kit was made, with numbers on sheets and lines so that they can be keyed in afterwards.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The kit.', body: null, mediaType: PDF },
  })
  async print(@CallOf() call: Call, @Param({ schema: PaperKitParams }) params: z.output<typeof PaperKitParams>, @Query({ schema: PaperQuery }) query: z.output<typeof PaperQuery>) {
    const language = query.language ?? call.language;
    const drawn = await this.runner.query(call, paperKitToPrint, params, async (kit) => ({ body: await this.documents.draw(call.context.networkId, { document: 'paper-kit', kit, style: { language, paper: query.paper } }) }));
    return asPrinted(call, drawn, language, 'paper-kit.pdf');
  }

  @Post('paper-kits/:kitId/keyed-slips')
  @Operation({
    id: 'keyPaperSlips',
    summary: 'Key in slips that were written on paper',
    description: 'Up to 500 slips. Each is decided by itself, in the order of the times on them, and has a verdict of its own. What is keyed keeps its own time: it happened when the slip was written, and was recorded now, from paper, by the person named. The same slip again is answered as before; another content for a number that was keyed is refused.',
    access: { scope: 'intake:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown'],
    success: { status: 200, description: 'One result for each slip.', body: SlipVerdictsBody },
  })
  key(@CallOf() call: Call, @Param({ schema: PaperKitParams }) params: z.output<typeof PaperKitParams>, @Body({ schema: KeyPaperSlips }) body: z.output<typeof KeyPaperSlips>) {
    const slips = body.slips.map(({ writtenAt, wettedAt, ...slip }) => ({ ...slip, writtenAtMs: msOf(writtenAt), wettedAtMs: msOf(wettedAt) }));
    return this.runner.command(call, keyPaperSlips, { ...params, personId: body.personId, slips }, (verdicts) => ({ body: presentVerdicts(verdicts, call.language), language: call.language }));
  }

  @Post('paper-kits/:kitId/log-lines')
  @Operation({
    id: 'keyPaperLogLines',
    summary: 'Key in lines of station logs and place sheets',
    description:
      'Up to 500 lines as they stand on the sheets. Each is decided by itself, in the order of the times on them, and has a verdict of its own. A line without a step says that a thing came to the place of its sheet (or to `to`): it goes by the rules of `recordScans`, room and company included, and what lies before something later on record moves nothing. A line with a step says how that ended at the station of its log, as `recordStepResult` does, and is refused when something later is on record. ' +
      'What is keyed keeps its own time: it happened when the line was written, and was recorded now, from paper, by the person named. The same line again is answered as before; another content for a line that was keyed is refused. A line with a step is refused for a key without the scope `station:work`.',
    access: { scope: 'custody:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown'],
    success: { status: 200, description: 'One result for each line.', body: LineVerdictsBody },
  })
  keyLines(@CallOf() call: Call, @Param({ schema: PaperKitParams }) params: z.output<typeof PaperKitParams>, @Body({ schema: KeyPaperLogLines }) body: z.output<typeof KeyPaperLogLines>) {
    const lines = body.lines.map(({ writtenAt, ...line }) => ({ ...line, writtenAtMs: msOf(writtenAt) }));
    return this.runner.command(call, keyPaperLogLines, { ...params, personId: body.personId, lines, mayWork: call.scopes.has('station:work') }, (verdicts) => ({ body: presentLineVerdicts(verdicts, call.language), language: call.language }));
  }
}
