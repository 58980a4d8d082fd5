import { Body, Controller, Inject, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { estimateOrder, estimateTriage } from '#application';
import { EstimateOrder, EstimateTriage, OrderEstimateBody, TriageEstimateBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentOrder } from '../../presenters/precedence.presenter.js';
import { iso } from '../../presenters/time.js';
import { presentTriageResult } from '../../presenters/triage-result.presenter.js';
import { toAssessment, toMoment, toThing } from './described-things.js';

/** Advice about things that are not on record. Nothing is stored, so no Idempotency-Key is asked for. */
@Controller({ version: '1' })
@ApiTags('Estimates')
export class EstimatesController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('estimates/triage')
  @Operation({
    id: 'estimateTriage',
    summary: 'Triage a thing that is only described',
    description: 'Urgency, ways with their routes, prohibitions, protection, reasons and questions for an assessment in the request, by the rule book that the network follows, or by another release of it; as for an item on record. Nothing is stored. What cannot all be true is refused with every contradiction at once.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['observations_contradict', 'body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'What follows from the assessment.', body: TriageEstimateBody },
  })
  triage(@CallOf() call: Call, @Body({ schema: EstimateTriage }) body: EstimateTriage) {
    const { language } = call;
    const input = { release: body.release, assessment: toAssessment(body.assessment), moment: toMoment(body, body.doneSteps) };
    return this.runner.query(call, estimateTriage, input, ({ result, nowMs }) => ({ body: { ...presentTriageResult(result, result.askNext, language, { atMs: nowMs }), estimatedAt: iso(nowMs) }, language }));
  }

  @Post('estimates/order')
  @Operation({
    id: 'estimateOrder',
    summary: 'Put described things in order for scarce hands',
    description: 'Up to 50 things: which comes first, and why each comes before the next, by the rule book that the network follows, or by another release of it. Nothing is stored. Items on record are compared by GET /v1/items/{itemId}/precedence.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['observations_contradict', 'body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'The things in order.', body: OrderEstimateBody },
  })
  order(@CallOf() call: Call, @Body({ schema: EstimateOrder }) body: EstimateOrder) {
    const { language } = call;
    const input = { release: body.release, things: body.items.map(toThing), moment: toMoment(body, []) };
    return this.runner.query(call, estimateOrder, input, (order) => ({ body: presentOrder(order, language), language }));
  }
}
